//! How the score of a node was made: the sums with their figures, the caps, both terms of u, the bounds.

use ringland_assess::{
    RollUp,
    explain::{CapFound, Made, explain},
};

use super::Sheet;
use crate::markup::Html;

impl Sheet<'_> {
    /// Takes a node apart.
    pub(super) fn made(&self, rolled: &RollUp, number: usize) -> Made {
        let (plan, leaves) = (self.card.plan(), &self.result.leaves);
        explain(
            plan,
            self.tree,
            leaves,
            rolled,
            self.result.raters.len(),
            number,
        )
    }

    /// The lines that say how a node was made; `brief` leaves out what did not act.
    pub(super) fn how_made(&self, html: &mut Html, number: usize, made: &Made, brief: bool) {
        let (words, numbers) = (self.words, self.words.numbers);
        let at = &self.result.all.nodes[number];
        let mean = match at.mean {
            Some(mean) => format!(
                "s = Σ w·s / Σ w = {} / {} = {}",
                numbers.fixed(made.sum, 3),
                numbers.weight(made.weight_rated),
                numbers.fixed(mean, 3)
            ),
            None => words.card.no_score.to_owned(),
        };
        html.open(if brief {
            "dl class=\"made made--brief num\""
        } else {
            LINES
        });
        let name = if made.caps.is_empty() {
            words.card.score
        } else {
            words.made.mean
        };
        line(html, name, &mean);
        for cap in made.caps.iter().filter(|cap| !brief || cap.bit) {
            self.cap(html, cap);
        }
        self.uncertainty(html, number, made, brief);
        let coverage = format!("Σ w·cov / Σ w = {}", numbers.fixed(at.coverage, 4));
        let bounds = words
            .common
            .range(&numbers.fixed(at.low, 3), &numbers.fixed(at.high, 3));
        line(html, words.card.coverage, &coverage);
        line(html, words.card.bounds, &bounds);
        self.in_service(html, number);
        html.close("dl");
    }

    fn cap(&self, html: &mut Html, cap: &CapFound) {
        let words = self.words;
        let rule = words.cap_rule(self.card.plan(), &self.card.plan().caps[cap.rule]);
        let became = match (cap.bit, cap.set_off_by.is_empty()) {
            (true, _) => words.card.cap_held,
            (false, false) => words.card.cap_idle,
            (false, true) => words.card.cap_not_set_off,
        };
        begin(html, words.made.cap);
        html.el("span", &rule).el(
            if cap.bit {
                "b"
            } else {
                "span class=\"made__note\""
            },
            became,
        );
        for leaf in &cap.set_off_by {
            self.go_to_leaf(html, *leaf);
        }
        if cap.open > 0 {
            html.el("span class=\"made__note\"", &words.card.cap_open(cap.open));
        }
        end(html);
    }

    /// The two terms of u, and whose looks it hangs on.
    pub(super) fn uncertainty(&self, html: &mut Html, number: usize, made: &Made, brief: bool) {
        let (words, numbers) = (self.words, self.words.numbers);
        let at = &self.result.all.nodes[number];
        let (Some(u), Some((low, high))) = (at.u, at.interval()) else {
            return;
        };
        let sums = format!(
            "u = √({} {}² + {} {}²) = {}",
            words.made.of_looks,
            numbers.fixed(made.u_looks, 3),
            words.made.of_raters,
            numbers.fixed(made.u_raters, 3),
            numbers.fixed(u, 3)
        );
        let range = words
            .common
            .range(&numbers.fixed(low, 2), &numbers.fixed(high, 2));
        let expanded = format!(
            "U = 2u = {} · {} {range}",
            numbers.fixed(2.0 * u, 2),
            words.card.interval
        );
        let raters: Vec<String> = self
            .result
            .raters
            .iter()
            .zip(&made.rater_shares)
            .filter(|(_, share)| **share > 0.0)
            .map(|(name, share)| [name, " ", &numbers.fixed(*share, 3)].concat())
            .collect();
        begin(html, words.made.u_meaning);
        html.el("span", &sums).el("span", &expanded);
        if !brief && !raters.is_empty() {
            let u_bias = numbers.short(self.card.plan().u_bias, 3);
            let bias = words.made.bias_line(&u_bias, &raters.join(", "));
            html.el("span class=\"made__note\"", &bias);
        }
        end(html);
    }

    /// The same mean in service, where something below is left out there.
    fn in_service(&self, html: &mut Html, number: usize) {
        let (words, numbers) = (self.words, self.words.numbers);
        let rolled = &self.result.in_service;
        let at = &rolled.nodes[number];
        if *at == self.result.all.nodes[number] {
            return;
        }
        let made = self.made(rolled, number);
        let text = match (at.mean, at.u, at.score) {
            (Some(mean), Some(u), Some(score)) => {
                let capped = match at.cap {
                    Some(_) => format!(", {} {}", words.card.capped, numbers.score(score)),
                    None => String::new(),
                };
                format!(
                    "s = {} / {} = {}{capped} · U = {} · {} {}",
                    numbers.fixed(made.sum, 3),
                    numbers.weight(made.weight_rated),
                    numbers.fixed(mean, 3),
                    numbers.fixed(2.0 * u, 2),
                    words.card.coverage,
                    numbers.share(at.coverage),
                )
            }
            _ => words.card.in_service_none.to_owned(),
        };
        line(html, words.card.in_service, &text);
    }
}

/// The list of lines.
pub(super) const LINES: &str = "dl class=\"made num\"";

/// A figure and how it came about.
pub(super) fn line(html: &mut Html, name: &str, text: &str) {
    begin(html, name);
    html.text(text);
    end(html);
}

fn begin(html: &mut Html, name: &str) {
    html.open("div").el("dt", name).open("dd");
}

fn end(html: &mut Html) {
    html.close("dd").close("div");
}
