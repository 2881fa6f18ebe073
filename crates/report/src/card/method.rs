//! What the Card was made with: plan, method, scales, id and digest, and who decides about reuse.

use ringland_card::{Depth, builtin};

use super::{BLOCK, Sheet, block, tree::Fill};
use crate::{format::check_word, markup::Html};

impl Sheet<'_> {
    /// Plan and method, with the id of the card and the digest of its file, which the caller has.
    pub fn method(&self, digest: &str, whole: bool) -> String {
        let words = self.words;
        let plan = self.card.plan();
        let depth = match plan.depth {
            Depth::Full => words.facts.full,
            Depth::Short => words.facts.short,
        };
        let line = words
            .card
            .plan_line(&plan.name, &plan.version, plan.rating_count());
        let made = &words.made;
        let lines = [
            made.weighted_mean,
            made.coverage_formula,
            made.bounds_formula,
            made.u_formula,
            made.cap_said,
            made.looks_said,
            made.grade_said,
            made.area_said,
            made.merit_said,
            made.points_said,
        ];
        let mut html = Html::new();
        html.open("p")
            .el("b", &line)
            .text(" · ")
            .text(depth)
            .close("p");
        if let Some(changed) = self.plan_changed() {
            html.el("p", &words.card.plan_changed(&changed));
        }
        let built_in = builtin(&plan.layout, plan.depth);
        let whose = if built_in.is_ok_and(|built_in| built_in == *plan) {
            words.card.default_weights
        } else {
            words.card.own_weights
        };
        html.el("p", whose).list("ul class=\"method num\"", &lines);
        self.fold(&mut html, words.card.all_scales, Fill::Scales, whole);
        let entries = words.card.n_entries(&words.numbers.count(self.card.len()));
        html.open("dl class=\"ids num\"")
            .el("dt", words.card.check_word)
            .el("dd class=\"ids__word\"", &check_word(digest))
            .el("dd class=\"fine\"", words.card.check_word_hint)
            .el("dt", words.card.id)
            .el("dd", &self.card.id().to_string())
            .el("dt", words.card.digest)
            .el("dd", digest)
            .el(
                "dd class=\"fine\"",
                &[words.card.digest_hint, " · ", &entries].concat(),
            )
            .close("dl");
        block(BLOCK, words.card.plan_and_method, "", html)
    }

    /// When the plan that holds came onto the card, where it is not the first.
    fn plan_changed(&self) -> Option<String> {
        let plan = self.card.plan();
        let mut entries = self.card.entries().rev();
        let entry = entries.find(|entry| match &entry.body {
            ringland_card::Body::Plan { plan: other } => std::ptr::eq(&raw const **other, plan),
            _ => false,
        })?;
        Some(self.when(entry))
    }

    /// Who decides about reuse.
    pub fn reuse(&self) -> String {
        let mut html = Html::new();
        html.el(
            "p class=\"caution caution--reuse\"",
            self.words.cautions.reuse,
        );
        html.done()
    }

    /// Cautions where hands are at risk.
    pub fn cautions(&self) -> String {
        let words = self.words;
        let mut html = Html::new();
        html.list("ul class=\"cautions\"", &words.general_cautions());
        block(BLOCK, words.cautions.title, "", html)
    }
}
