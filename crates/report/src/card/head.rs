//! Whose engine, what it has done, and the score with all that qualifies it.

use ringland_assess::{Answer, weights::Dependence};
use ringland_card::{Body, FactField};

use super::{DASH, Sheet};
use crate::{markup::Html, swatch};

impl Sheet<'_> {
    /// The engine's name with what is known of it, and when and by whom it was rated.
    pub fn who(&self) -> String {
        let words = self.words;
        let value = |field| {
            let fact = self.standing.fact(field);
            fact.map(|fact| words.fact_value(fact, self.units))
        };
        let drained = |field| value(field).map(|every| words.card.drained(&every));
        let name = value(FactField::Name);
        let machine = [
            value(FactField::Fleet),
            value(FactField::Vehicle),
            value(FactField::Model),
            Some(words.layout(&self.card.plan().layout)),
        ];
        let oil = [
            value(FactField::Oil),
            value(FactField::OilGrade),
            value(FactField::OilCategory),
        ];
        let work = [
            value(FactField::Distance),
            value(FactField::RunningTime),
            Some(joined(oil, ", ")).filter(|oil| !oil.is_empty()),
            drained(FactField::DrainDistance).or_else(|| drained(FactField::DrainTime)),
        ];
        let mut html = Html::new();
        html.el(
            "h1 class=\"head__name\"",
            name.as_deref().unwrap_or(words.card.engine),
        )
        .el("p class=\"head__facts\"", &joined(machine, " · "))
        .el(
            "p class=\"head__facts head__facts--work num\"",
            &joined(work, " · "),
        )
        .el("p class=\"head__facts\"", &self.rated());
        html.done()
    }

    /// First to last day of looks, and by whom.
    fn rated(&self) -> String {
        let words = self.words;
        let looked = |body: &Body| matches!(body, Body::Rating { .. } | Body::Measurement { .. });
        let looks = || self.card.entries().filter(|entry| looked(&entry.body));
        let (first, last) = (
            looks().map(|entry| entry.time).min(),
            looks().map(|entry| entry.time).max(),
        );
        let (Some(first), Some(last)) = (first, last) else {
            return words.card.nothing_yet.to_owned();
        };
        let when = words.days(first, last, self.offset_minutes);
        let mut who: Vec<&str> = looks().map(|entry| entry.rater.as_str()).collect();
        who.sort_unstable();
        who.dedup();
        words.card.rated(&when, &who.join(", "))
    }

    /// The score on its line, with the figures that qualify it. The place of the other weights is
    /// marked by `data-weights`, for [`Sheet::drawn_weights`] comes later.
    pub fn score(&self) -> String {
        let words = self.words;
        let engine = self.result.all.engine();
        let mut html = Html::new();
        let (Some(score), Some((low, high))) = (engine.score, engine.interval()) else {
            html.open("section class=\"score score--none\"")
                .el("p class=\"score__none\"", words.card.nothing_yet)
                .el("p class=\"mute\"", words.card.nothing_yet_hint);
            if let Some(bench) = &self.bench {
                html.with("a class=\"button button--act\"", &[("href", bench)])
                    .text(words.common.to_bench)
                    .close("a");
            }
            html.close("section");
            return html.done();
        };
        let numbers = words.numbers;
        let line = words
            .card
            .score_line(&numbers.score(low), &numbers.score(high));
        html.with(
            "section class=\"score\"",
            &[("aria-label", words.card.score)],
        )
        .el("p class=\"score__figure num\"", &numbers.score(score))
        .open("div class=\"score__line\"")
        .el("p class=\"score__words num\"", &line)
        .open("div class=\"score__bar\"")
        .markup(&swatch::interval_bar(
            score,
            (low, high),
            (engine.low, engine.high),
            words,
        ))
        .close("div")
        .el("p class=\"fine\"", words.card.scale_hint)
        .close("div");
        self.four(&mut html);
        html.close("section");
        html.done()
    }

    /// Coverage, bounds, other weights, in service.
    fn four(&self, html: &mut Html) {
        let words = self.words;
        let engine = self.result.all.engine();
        let leaves = self.card.index().leaves().iter();
        let by_eye = leaves.zip(&self.result.answers);
        let rated = by_eye
            .filter(|(leaf, answer)| !leaf.gauged && **answer == Answer::Rated)
            .count();
        let asked = self.card.plan().rating_count();
        let bounds = if engine.coverage < 1.0 {
            words.card.bounds_hint
        } else {
            words.card.bounds_closed
        };
        let service = self.result.in_service.engine();
        let left = self.result.exclusions.len();
        let note = match (left, service.interval()) {
            (0, _) => words.card.in_service_same.to_owned(),
            (_, None) => words.card.in_service_none.to_owned(),
            (n, Some((low, high))) => words.card.in_service_left(&self.range(low, high), n),
        };
        html.open("dl class=\"score__four num\"");
        four_line(
            html,
            words.card.coverage,
            &words.numbers.share(engine.coverage),
            &words.card.coverage_counts(rated, asked),
        );
        four_line(
            html,
            words.card.bounds,
            &self.range(engine.low, engine.high),
            bounds,
        );
        html.open("div data-weights")
            .markup(&self.drawn_weights(self.other_weights))
            .close("div");
        four_line(
            html,
            words.card.in_service,
            &self.score_or_dash(service.score),
            &note,
        );
        html.close("dl");
    }

    /// The score under other weights: what was drawn, or that it is being drawn.
    pub fn drawn_weights(&self, drawn: Option<(&Dependence, u64)>) -> String {
        let words = self.words;
        let mut html = Html::new();
        html.el("dt", words.card.other_weights);
        match drawn {
            Some((drawn, seed)) => {
                let draws = words.numbers.count(drawn.draws.len());
                html.el("dd", &self.range(drawn.low, drawn.high)).el(
                    "dd class=\"fine\"",
                    &words.card.other_weights_note(&draws, seed),
                );
            }
            None => {
                html.el("dd", DASH)
                    .el("dd class=\"fine\"", words.card.other_weights_working);
            }
        }
        html.done()
    }
}

fn four_line(html: &mut Html, name: &str, figure: &str, note: &str) {
    html.open("div")
        .el("dt", name)
        .el("dd", figure)
        .el("dd class=\"fine\"", note)
        .close("div");
}

fn joined<const N: usize>(facts: [Option<String>; N], between: &str) -> String {
    let known: Vec<String> = facts.into_iter().flatten().collect();
    known.join(between)
}
