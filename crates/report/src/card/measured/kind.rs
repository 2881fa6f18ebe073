//! The kinds of size, and the table of one: every part from front to rear.

use ringland_assess::gauging::{
    Verdict,
    finding::{Finding, NewFrom, Rate},
};
use ringland_card::gauging::{SizeField, Unit};

use crate::{
    card::{DASH, Fill, Sheet},
    format::{NBSP, expanded},
    gauging::{Gauger, Kind},
    markup::{Cell, Html, Table},
    words::capitalised,
};

/// The id of a kind's row on the page.
pub(super) fn anchor(kind: Kind) -> String {
    ["size-kind-", &kind.first.0.to_string()].concat()
}

impl Sheet<'_> {
    /// Every kind that was read, as rows that open, by section.
    pub(super) fn kinds(
        &self,
        html: &mut Html,
        gauger: &Gauger<'_>,
        found: &[Option<Finding>],
        whole: bool,
    ) {
        let mut section = None;
        for kind in gauger.kinds() {
            let read: Vec<&Finding> = kind
                .leaves()
                .filter_map(|leaf| found.get(leaf.0)?.as_ref())
                .collect();
            let leaf = self.card.index().leaf(kind.first);
            let (Some(leaf), false) = (leaf, read.is_empty()) else {
                continue;
            };
            if section != Some(leaf.section) {
                section = Some(leaf.section);
                let name = self
                    .words
                    .section_name(&self.card.plan().sections[leaf.section]);
                html.el("h3 class=\"measured__section\"", name);
            }
            self.kind_row(html, gauger, kind, &read, whole);
        }
    }

    fn kind_row(
        &self,
        html: &mut Html,
        gauger: &Gauger<'_>,
        kind: Kind,
        read: &[&Finding],
        whole: bool,
    ) {
        let (words, g) = (self.words, &self.words.gauging);
        let fill = Fill::Kind(kind.first.0).to_string();
        let element = "details class=\"node node--measured\"";
        if whole && !self.still {
            html.with(element, &[("data-fill", &fill), ("open", "")]);
        } else {
            html.with(element, &[("data-fill", &fill)]);
        }
        html.with(
            "summary class=\"node__row measured__row\"",
            &[("id", &anchor(kind))],
        );
        html.el(
            "span class=\"measured__name\"",
            &capitalised(&gauger.title(kind)),
        );
        html.el(
            "span class=\"measured__count num\"",
            &[
                &words.numbers.count(read.len()),
                "/",
                &words.numbers.count(kind.positions),
            ]
            .concat(),
        );
        self.worst_chip(html, read);
        let verdict = Verdict::worst(read.iter().filter_map(|finding| finding.verdict()));
        html.el(
            crate::gauging::verdict_class(verdict),
            match verdict {
                Some(Verdict::CannotSay) => g.cannot_say_short,
                verdict => words.gauging_verdict(verdict),
            },
        );
        html.close("summary");
        if whole {
            html.markup(&self.kind_inside(kind.first.0, true));
        }
        html.close("details");
    }

    fn worst_chip(&self, html: &mut Html, read: &[&Finding]) {
        let shares = read.iter().filter_map(|finding| finding.share.as_ref());
        match shares.max_by(|a, b| a.si.total_cmp(&b.si)) {
            Some(share) => self.share_chip(html, share),
            None => {
                html.el("span class=\"measured__none\"", DASH);
            }
        }
    }

    /// The table of a kind, by its first leaf, and its parts as rows that open.
    pub(in crate::card) fn kind_inside(&self, first: usize, whole: bool) -> String {
        let gauger = self.gauger();
        let kind = gauger.kind_of(ringland_card::plan::LeafId(first));
        let Some(kind) = kind else {
            return String::new();
        };
        let read: Vec<Finding> = kind
            .leaves()
            .filter_map(|leaf| ringland_assess::gauging::finding::finding(&self.standing, leaf))
            .collect();
        let mut html = Html::new();
        html.open("div class=\"node__inside measured__kind\"");
        html.open("p class=\"limits\"")
            .markup(&gauger.limits(kind))
            .close("p");
        self.kind_table(&mut html, &gauger, kind, &read);
        for finding in &read {
            if whole {
                self.size_brief(&mut html, &gauger, finding);
            } else {
                let name = gauger.part_name(finding.leaf);
                let title = [&capitalised(&name), " · ", self.words.measured.open].concat();
                self.fold(&mut html, &title, Fill::Size(finding.leaf.0), false);
            }
        }
        html.close("div");
        html.done()
    }

    fn kind_table(&self, html: &mut Html, gauger: &Gauger<'_>, kind: Kind, read: &[Finding]) {
        let (g, words) = (&self.words.gauging, self.words);
        let unit = gauger.unit(kind);
        let rate = read.iter().find_map(|finding| finding.rates.first());
        let caption = words.measured.rows(&capitalised(&gauger.title(kind)));
        let mut table = Table::new("table--sizes", caption)
            .wide()
            .quiet()
            .words(words.card.position)
            .figures(g.size)
            .figures(g.as_new)
            .figures(g.wear_by)
            .figures(g.share);
        if let Some(rate) = rate {
            table = table.figures(&self.rate_head(rate));
        }
        table = table.words(g.verdict);
        for finding in read {
            table
                .rows
                .push(self.kind_cells(gauger, finding, unit, rate.is_some()));
        }
        html.table(&table);
    }

    fn kind_cells(
        &self,
        gauger: &Gauger<'_>,
        finding: &Finding,
        unit: Unit,
        rates: bool,
    ) -> Vec<Cell> {
        let (words, numbers) = (self.words, self.words.numbers);
        let or_dash = |text: Option<String>| Cell::Figure(text.unwrap_or_else(|| DASH.to_owned()));
        let mut cells = vec![
            Cell::Words(capitalised(&gauger.part_name(finding.leaf))),
            Cell::Figure(numbers.measured(&finding.size, unit)),
            or_dash(self.as_new(gauger, finding)),
            or_dash(
                finding
                    .wear
                    .as_ref()
                    .map(|wear| numbers.measured(wear, unit)),
            ),
        ];
        let mut share = Html::new();
        self.worst_chip(&mut share, &[finding]);
        cells.push(Cell::Html(share));
        if rates {
            let rate = finding.rates.first();
            cells.push(or_dash(rate.map(|rate| self.rate(rate, unit))));
        }
        let mut verdict = Html::new();
        let said = finding.verdict();
        verdict.el(
            crate::gauging::verdict_class(said),
            words.gauging_verdict(said),
        );
        cells.push(Cell::Html(verdict));
        cells
    }

    /// What it measured when new: as it was read, or the range of the sheet.
    pub(super) fn as_new(&self, gauger: &Gauger<'_>, finding: &Finding) -> Option<String> {
        let (numbers, new) = (self.words.numbers, finding.new?);
        let (unit, fine) = (gauger.unit_of(finding), super::fine(finding));
        if new.from == NewFrom::Measured {
            let read = numbers.sized_plain(new.si, fine, unit);
            return Some([&read, ", ", self.words.gauging.as_new_read].concat());
        }
        let size = gauger.size(gauger.kind_of(finding.leaf)?)?;
        let [low, high] = [SizeField::NewLow, SizeField::NewHigh].map(|field| {
            size.field(field)
                .map(|figure| numbers.as_typed(figure.as_str()))
        });
        let high = [&high?, NBSP, size.unit.sign()].concat();
        Some(self.words.common.range(&low?, &high))
    }

    /// What the rates of a column are counted by: `Wear rate per 100,000 km`.
    pub(super) fn rate_head(&self, rate: &Rate) -> String {
        let g = &self.words.gauging;
        let (_, per) = self.words.numbers.rate_basis(rate.basis, self.units);
        self.words.per(g.rate, rate.basis, &per)
    }

    /// A wear rate with its expanded uncertainty, in the unit of the size.
    pub(super) fn rate(&self, rate: &Rate, unit: Unit) -> String {
        let numbers = self.words.numbers;
        let (per, _) = numbers.rate_basis(rate.basis, self.units);
        let figure = &rate.figure;
        match expanded(figure) {
            Some(half) => numbers.sized(figure.si * per, half * per, unit),
            None => numbers.sized_plain(figure.si * per, figure.budget.u * per, unit),
        }
    }
}
