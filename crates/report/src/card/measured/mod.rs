//! What was measured: the sizes by kind, which are beyond or cannot be told, and how much further it could have run.
//!
//! A kind of size is a row that opens to its table ([`super::Fill::Kind`]); a part of it opens to its readings and
//! budgets ([`super::Fill::Size`]).

mod kind;
mod left;
mod one;
#[cfg(test)]
mod tests;

use ringland_assess::gauging::{
    Verdict,
    finding::{Figure, Finding, Held, Note, findings},
    second_look::{SecondLook, second_looks},
};
use ringland_card::{gauging::SizeField, plan::LeafId};

use super::{BLOCK, Sheet, block, worst::chip};
use crate::{
    format::{NBSP, expanded},
    gauging::Gauger,
    markup::Html,
    ramp,
};

/// How many of the positions that cannot be told are named at once.
const MOST: usize = 12;

impl Sheet<'_> {
    /// What was measured; nothing where the plan measures nothing. With `whole`, every kind stands open.
    pub fn measured(&self, whole: bool) -> String {
        let gauger = self.gauger();
        let (done, all) = gauger.progress();
        let (measured, g) = (&self.words.measured, &self.words.gauging);
        if all == 0 {
            return String::new();
        }
        let mut html = Html::new();
        if done == 0 {
            html.el("p", g.no_measurements);
            return block(BLOCK, measured.title, "", html);
        }
        let found = findings(&self.standing);
        html.open("div class=\"measured__lead\"");
        html.el("p class=\"num\"", &g.measured_n(done, all));
        self.held_against(&mut html);
        self.worst_share(&mut html, &gauger, &found);
        html.close("div");
        self.beyond(&mut html, &gauger, &found);
        self.unsaid(&mut html, &gauger, &found);
        self.apart(&mut html, &found);
        self.too_coarse(&mut html, &gauger, &found);
        self.kinds(&mut html, &gauger, &found, whole);
        block(BLOCK, measured.title, g.section_lead, html)
    }

    /// The card through the eyes of somebody who only reads it.
    pub(super) fn gauger(&self) -> Gauger<'_> {
        Gauger {
            standing: &self.standing,
            words: self.words,
            units: self.units,
            rater: "",
            blind: false,
            as_new: false,
        }
    }

    fn held_against(&self, html: &mut Html) {
        let (g, measured) = (&self.words.gauging, &self.words.measured);
        let Some(sheet) = self.standing.size_sheet() else {
            html.el("p class=\"fine\"", g.no_sheet);
            return;
        };
        html.open("p").text(&g.sheet_used(&sheet.name));
        if !sheet.source.is_empty() {
            html.text(". ").text(&measured.source(&sheet.source));
        }
        html.close("p");
        for why in sheet.misfits(self.standing.plan) {
            html.el("p", &self.words.size_error(&why));
        }
    }

    fn worst_share(&self, html: &mut Html, gauger: &Gauger<'_>, found: &[Option<Finding>]) {
        let shares = found
            .iter()
            .flatten()
            .filter_map(|finding| Some((finding, finding.share.as_ref()?)));
        let Some((worst, share)) = shares.max_by(|(_, a), (_, b)| a.si.total_cmp(&b.si)) else {
            return;
        };
        html.open("p class=\"measured__worst\"");
        html.el("b", self.words.gauging.worst).text(" ");
        self.share_chip(html, share);
        html.text(" ");
        self.to_size(html, gauger, worst.leaf);
        html.close("p");
    }

    /// A share of the allowance with its expanded uncertainty, in the shade of the score that it makes.
    fn share_chip(&self, html: &mut Html, share: &Figure) {
        let shade = ramp::class(ringland_assess::look::share_score(share).score);
        let half = expanded(share).unwrap_or(f64::NAN);
        chip(html, shade, &self.words.numbers.share_with(share.si, half));
    }

    /// A way to the kind that a size is of.
    fn to_size(&self, html: &mut Html, gauger: &Gauger<'_>, leaf: LeafId) {
        let name = self.leaf_name(leaf);
        match gauger.kind_of(leaf) {
            Some(kind) => {
                let target = kind::anchor(kind);
                self.way(html, ("data-go-size", &target), &target, &name);
            }
            None => {
                html.text(&name);
            }
        }
    }

    fn beyond(&self, html: &mut Html, gauger: &Gauger<'_>, found: &[Option<Finding>]) {
        let (g, measured, numbers) = (
            &self.words.gauging,
            &self.words.measured,
            self.words.numbers,
        );
        html.el("h3", g.beyond_list);
        let lines: Vec<Html> = with_verdict(found, Verdict::Beyond)
            .map(|(finding, held)| {
                let keeps = numbers.share(held.conformity.probability);
                let said = [" (", &g.probability(&keeps), ")"].concat();
                self.against(gauger, finding, held, &said)
            })
            .collect();
        if lines.is_empty() {
            html.el("p", measured.none_beyond);
        } else {
            self.list(html, "", &lines);
        }
    }

    fn unsaid(&self, html: &mut Html, gauger: &Gauger<'_>, found: &[Option<Finding>]) {
        let (measured, numbers) = (&self.words.measured, self.words.numbers);
        let lines: Vec<Html> = with_verdict(found, Verdict::CannotSay)
            .map(|(finding, held)| {
                let enough = match held.conformity.sufficient_u {
                    Some(u) => {
                        let unit = gauger.unit_of(finding);
                        measured.enough(&numbers.uncertain(u, unit))
                    }
                    None => measured.never_enough.to_owned(),
                };
                self.against(gauger, finding, held, &["; ", &enough].concat())
            })
            .collect();
        self.list(html, self.words.gauging.cannot_say_list, &lines);
    }

    /// A size against one of its limits, and what is said of that.
    fn against(&self, gauger: &Gauger<'_>, finding: &Finding, held: &Held, said: &str) -> Html {
        let unit = gauger.unit_of(finding);
        let figure = self
            .words
            .numbers
            .measured(figure_held(finding, held), unit);
        let limit = self.limit(gauger, finding, held);
        let mut line = Html::new();
        self.to_size(&mut line, gauger, finding.leaf);
        line.text(": ").text(&figure).text("; ");
        line.text(self.words.size_field(held.field))
            .text(" ")
            .text(&limit)
            .text(said);
        line
    }

    /// A limit as it stands on the sheet.
    pub(super) fn limit(&self, gauger: &Gauger<'_>, finding: &Finding, held: &Held) -> String {
        let numbers = self.words.numbers;
        let kind = gauger.kind_of(finding.leaf);
        let size = kind.and_then(|kind| gauger.size(kind));
        match size.and_then(|size| Some((size.field(held.field)?, size.unit))) {
            Some((figure, unit)) => {
                let figure = numbers.as_typed(figure.as_str());
                [&figure, NBSP, unit.sign()].concat()
            }
            None => numbers.sized_plain(held.limit, fine(finding), gauger.unit_of(finding)),
        }
    }

    fn too_coarse(&self, html: &mut Html, gauger: &Gauger<'_>, found: &[Option<Finding>]) {
        let mut lines: Vec<Html> = Vec::new();
        for finding in found.iter().flatten() {
            for note in &finding.notes {
                let Note::TooCoarse { enough } = *note else {
                    continue;
                };
                let unit = gauger.unit_of(finding);
                let enough = self.words.numbers.uncertain(enough, unit);
                let mut line = Html::new();
                self.to_size(&mut line, gauger, finding.leaf);
                line.text(": ").text(&self.words.measured.enough(&enough));
                lines.push(line);
            }
        }
        self.list(html, self.words.measured.too_coarse, &lines);
    }

    /// Sizes and grades of the same surface that do not go together.
    fn apart(&self, html: &mut Html, found: &[Option<Finding>]) {
        let plan = self.card.plan();
        let looks = second_looks(plan, self.card.index(), found, &self.result.leaves);
        let lines: Vec<Html> = looks.iter().map(|look| self.apart_line(look)).collect();
        self.list(html, self.words.gauging.second_look, &lines);
    }

    fn apart_line(&self, look: &SecondLook) -> Html {
        let (g, words) = (&self.words.gauging, self.words);
        let where_ = self.leaf_name(look.measured);
        let seen = self.seen(look.seen).join(", ");
        let share = words.numbers.share(look.share);
        let said = if look.has_worn_more() {
            g.second_look_line(&where_, &seen, &share)
        } else {
            g.second_look_worn(&where_, &seen, &share)
        };
        let mut line = Html::new();
        line.text(&said);
        line
    }

    /// A list under a heading, if it has one, its first lines at once and the rest in a fold; nothing where it is empty.
    fn list(&self, html: &mut Html, title: &str, lines: &[Html]) {
        if lines.is_empty() {
            return;
        }
        if !title.is_empty() {
            let count = self.words.numbers.count(lines.len());
            html.el("h3", &[title, " (", &count, ")"].concat());
        }
        let put = |html: &mut Html, lines: &[Html]| {
            html.open("ul class=\"measured__list num\"");
            for line in lines {
                html.open("li").markup(&line.clone().done()).close("li");
            }
            html.close("ul");
        };
        let (first, rest) = lines.split_at(lines.len().min(MOST));
        put(html, first);
        if !rest.is_empty() {
            let more = self.words.card.n_more(rest.len());
            html.open("details class=\"measured__more\"")
                .el("summary", &more);
            put(html, rest);
            html.close("details");
        }
    }
}

/// Every size against each limit on which the verdict is that one.
fn with_verdict(
    found: &[Option<Finding>],
    verdict: Verdict,
) -> impl Iterator<Item = (&Finding, &Held)> {
    let all = found.iter().flatten();
    all.flat_map(move |finding| {
        let held = finding.limits();
        held.filter(move |held| held.conformity.verdict == verdict)
            .map(move |held| (finding, held))
    })
}

/// The figure that was held against a limit: a shape's, or the size.
fn figure_held<'f>(finding: &'f Finding, held: &Held) -> &'f Figure {
    let shape = match held.field {
        SizeField::OutOfRound => &finding.out_of_round,
        SizeField::Taper => &finding.taper,
        _ => &None,
    };
    shape.as_ref().map_or(&finding.size, |shape| &shape.figure)
}

/// How finely a limit of a size is shown: as finely as the size itself.
fn fine(finding: &Finding) -> f64 {
    expanded(&finding.size).unwrap_or(finding.size.budget.u)
}
