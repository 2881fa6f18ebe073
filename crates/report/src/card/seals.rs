//! The seals of a card: who, when, whether each holds, and what came after.

use ringland_card::{
    Body,
    seal::{MOST_CHECKED, SealRead},
};

use super::{BLOCK, Sheet, block};
use crate::{format::check_word, markup::Html};

impl Sheet<'_> {
    /// The seals that were looked into; nothing where there is none.
    pub fn seals(&self, seals: &[SealRead]) -> String {
        if seals.is_empty() {
            return String::new();
        }
        let words = &self.words.seals;
        let mut html = Html::new();
        html.open("ul class=\"seals\"");
        for read in seals {
            self.one_seal(&mut html, read);
        }
        html.close("ul");
        let all = self
            .card
            .entries()
            .filter(|entry| matches!(entry.body, Body::Seal { .. }));
        let earlier = all.count().saturating_sub(MOST_CHECKED);
        if earlier > 0 {
            html.el("p class=\"mute\"", &words.earlier(earlier));
        }
        let means = [words.proves, words.not, words.key_hint].join(". ");
        html.el("p class=\"fine\"", &means);
        block(BLOCK, words.title, "", html)
    }

    fn one_seal(&self, html: &mut Html, read: &SealRead) {
        let (words, seal) = (&self.words.seals, &read.seal);
        let when = self.words.date_time(seal.at, self.offset_minutes);
        let state = self.words.seal_state(read.fault);
        let class = if read.fault.is_some() {
            "p class=\"trouble\""
        } else {
            "p"
        };
        let after = match read.after {
            0 => words.none_after.to_owned(),
            n => words.after(n),
        };
        let entries = usize::try_from(seal.entries).unwrap_or(usize::MAX);
        let covers = words.covers(&self.words.numbers.count(entries));
        html.open("li class=\"seals__one\"")
            .open("p")
            .el("b", &words.by(&seal.name, &when))
            .close("p")
            .el(class, &state)
            .el("p class=\"fine num\"", &[covers, after].join(" · "))
            .el("p class=\"fine num\"", &words.key(&check_word(&seal.key)))
            .close("li");
    }
}
