//! What was found in plain sentences, by rule: each says one figure of the card.
//!
//! | sentence | said when | from |
//! |---|---|---|
//! | how much was rated | always | [`Answer`] of what is rated by eye |
//! | the score with its interval | something was rated | the roll-up of all causes |
//! | where what is open could move it | coverage is below 1 | the bounds |
//! | lowest and highest section | two sections have scores that are shown apart | the roll-up |
//! | how many are capped | one is | the roll-up |
//! | what is not the oil's doing | always | the causes; the roll-up in service |
//! | how many sizes, and how they stand | the plan measures | the verdict on all limits of each |
//! | what was left to the first limit | it could be drawn | the draws |
//! | what a second rater looked at | something was rated | the looks |
//! | that one engine compares with none | something was rated | |
//!
//! Nothing is said to be good or bad: no figure here carries that.

use ringland_assess::{
    Answer,
    gauging::finding::{Finding, findings},
};
use ringland_card::Cause;
use ringland_stats::conformity::Verdict;

use super::HandOver;
use crate::{markup::Html, words::lowered};

impl HandOver<'_> {
    /// The sentences as a part of the page.
    pub(super) fn plain(&self) -> String {
        let words = &self.sheet.words.hand_over;
        let mut html = Html::new();
        html.open("section class=\"block plain\"")
            .el("h2", words.said)
            .list("ul class=\"plain__list num\"", &self.sentences())
            .el("p class=\"fine\"", words.said_hint)
            .close("section");
        html.done()
    }

    /// The sentences.
    pub fn sentences(&self) -> Vec<String> {
        let words = &self.sheet.words.hand_over;
        let Some(score) = self.score() else {
            let sizes = self.sizes();
            return [vec![words.nothing.to_owned()], sizes].concat();
        };
        [
            vec![self.rated()],
            score,
            self.sections(),
            self.capped(),
            self.causes(),
            self.sizes(),
            self.first_limit(),
            vec![self.twice(), words.no_comparison.to_owned()],
        ]
        .concat()
    }

    fn rated(&self) -> String {
        let words = &self.sheet.words.hand_over;
        let leaves = self.sheet.card.index().leaves().iter();
        let answers = leaves.zip(&self.sheet.result.answers);
        let by_eye = || answers.clone().filter(|(leaf, _)| !leaf.gauged);
        let count = |asked| by_eye().filter(|(_, answer)| **answer == asked).count();
        let (all, done) = (by_eye().count(), count(Answer::Rated));
        if done == all {
            words.rated_all(all)
        } else {
            words.rated_part(done, all, count(Answer::NotInspected), count(Answer::Open))
        }
    }

    fn score(&self) -> Option<Vec<String>> {
        let words = &self.sheet.words.hand_over;
        let shown = |score| self.sheet.words.numbers.score(score);
        let engine = self.sheet.result.all.engine();
        let (low, high) = engine.interval()?;
        let mut said = vec![words.score(&shown(engine.score?), &shown(low), &shown(high))];
        if engine.coverage < 1.0 {
            said.push(words.could_move(&shown(engine.low), &shown(engine.high)));
        }
        Some(said)
    }

    /// The lowest and the highest section, where the figures as shown differ.
    fn sections(&self) -> Vec<String> {
        let (words, plan) = (self.sheet.words, self.sheet.card.plan());
        let nodes = &self.sheet.result.all.nodes;
        let rated = self.sheet.tree.nodes()[0].children.iter();
        let rated = rated.zip(&plan.sections).filter_map(|(node, section)| {
            let name = words.section_name(section);
            Some((nodes[*node].score?, name))
        });
        let by_score = |a: &(f64, &str), b: &(f64, &str)| a.0.total_cmp(&b.0);
        let (Some(low), Some(high)) = (rated.clone().min_by(by_score), rated.max_by(by_score))
        else {
            return Vec::new();
        };
        let shown = |score| words.numbers.score(score);
        let (lowest, highest) = (shown(low.0), shown(high.0));
        if lowest == highest {
            return Vec::new();
        }
        vec![
            words.hand_over.lowest(&lowered(low.1), &lowest),
            words.hand_over.highest(&lowered(high.1), &highest),
        ]
    }

    fn capped(&self) -> Vec<String> {
        let nodes = self.sheet.result.all.nodes.iter();
        let capped = nodes.filter(|node| node.cap.is_some()).count();
        let said = (capped > 0).then(|| self.sheet.words.hand_over.capped(capped));
        said.into_iter().collect()
    }

    /// What is left out in service, by cause, and the score without it.
    fn causes(&self) -> Vec<String> {
        let words = self.sheet.words;
        let out = &self.sheet.result.exclusions;
        if out.is_empty() {
            return vec![words.hand_over.causes_none.to_owned()];
        }
        let by_cause = Cause::ALL.into_iter().filter_map(|cause| {
            let n = out.iter().filter(|one| one.cause == cause).count();
            let name = lowered(words.cause(cause));
            (n > 0).then(|| [&name, ": ", &words.numbers.count(n)].concat())
        });
        let by_cause: Vec<String> = by_cause.collect();
        let mut said = vec![words.hand_over.causes(out.len(), &by_cause.join(", "))];
        let service = self.sheet.result.in_service.engine();
        if let (Some(score), Some((low, high))) = (service.score, service.interval()) {
            let shown = |score| words.numbers.score(score);
            let without = words
                .hand_over
                .in_service(&shown(score), &shown(low), &shown(high));
            said.push(without);
        }
        said
    }

    /// How many sizes were measured, and how they stand to their limits.
    fn sizes(&self) -> Vec<String> {
        let words = &self.sheet.words.hand_over;
        let leaves = self.sheet.card.index().leaves().iter();
        let asked = leaves.filter(|leaf| leaf.gauged).count();
        if asked == 0 {
            return Vec::new();
        }
        let found = findings(&self.sheet.standing);
        let verdicts = || found.iter().flatten().map(Finding::verdict);
        let count = |verdict| verdicts().filter(|of| *of == verdict).count();
        let done = verdicts().count();
        if done == 0 {
            return vec![words.sizes_none.to_owned()];
        }
        vec![
            words.sizes(done, asked),
            words.sizes_held(
                count(Some(Verdict::Within)),
                count(Some(Verdict::Beyond)),
                count(Some(Verdict::CannotSay)),
                count(None),
            ),
        ]
    }

    fn first_limit(&self) -> Vec<String> {
        let words = self.sheet.words;
        let said = self.outlook.map(|(outlook, first)| {
            let left = words.remaining(&first.engine, outlook.basis, self.sheet.units);
            words.hand_over.first_limit(&left)
        });
        said.into_iter().collect()
    }

    fn twice(&self) -> String {
        let words = &self.sheet.words.hand_over;
        let leaves = self.sheet.result.leaves.iter();
        match leaves.filter(|leaf| leaf.looks.len() > 1).count() {
            0 => words.alone.to_owned(),
            n => words.twice(n),
        }
    }
}
