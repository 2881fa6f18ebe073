//! The page that is handed over: one file that any browser shows, with no script and no network, and that
//! carries the card.
//!
//! ```text
//! card ──▶ Sheet, plain sentences ──▶ page ◀── the card's file, as the address of a link
//! ```
//!
//! The page is a function of the card and of how it is to be read ([`ReadAs`]), so whoever doubts one can
//! have it made anew from what it carries and hold the two beside each other: [`was_read_as`] says how.

mod at_once;
mod choice;
mod plain;
mod read_as;

#[cfg(test)]
mod tests;

use ringland_assess::gauging::{FirstLimit, outlook::Outlook};
use ringland_card::{FactField, file::carrying, seal::SealRead};

pub use self::at_once::page_of;
pub use self::choice::{Choice, chosen};
pub use self::read_as::{ReadAs, was_read_as};
use crate::{
    card::Sheet,
    format::{check_word, file_name},
    markup::Html,
    swatch,
};

/// What a page is made of.
#[derive(Clone, Debug)]
pub struct HandOver<'a> {
    /// The card, which is set to be read where no script runs.
    sheet: Sheet<'a>,
    read_as: ReadAs,
    /// How much further the engine could have run, where that could be drawn.
    outlook: Option<(&'a Outlook, &'a FirstLimit)>,
    /// Whether the card came from a file that had been altered.
    altered: bool,
}

/// What a page shows and carries besides its card.
#[derive(Clone, Copy, Debug)]
pub struct Carried<'a> {
    /// The card's file, whole.
    pub file: &'a str,
    /// The digest of its content.
    pub digest: &'a str,
    /// Its seals, looked into.
    pub seals: &'a [SealRead],
}

impl<'a> HandOver<'a> {
    /// A page of that sheet; its units and clock become those of `read_as`, whose language is to be that of the
    /// sheet's words.
    pub fn new(
        mut sheet: Sheet<'a>,
        read_as: ReadAs,
        outlook: Option<(&'a Outlook, &'a FirstLimit)>,
        altered: bool,
    ) -> Self {
        sheet.still = true;
        sheet.bench = None;
        sheet.gauging = None;
        sheet.units = read_as.units;
        sheet.offset_minutes = read_as.offset_minutes;
        Self {
            sheet,
            read_as,
            outlook,
            altered,
        }
    }

    /// The page: a whole file.
    pub fn page(&self, carried: Carried<'_>) -> String {
        let words = &self.sheet.words.hand_over;
        let name = self.sheet.standing.text(FactField::Name);
        let title = words.title(name.unwrap_or(self.sheet.words.card.engine));
        let mut html = Html::new();
        html.markup("<!doctype html>\n")
            .with("html", &[("lang", self.read_as.language.tag())])
            .open("head")
            .open("meta charset=\"utf-8\"")
            .open("meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"")
            .open(POLICY)
            .with(
                "meta name=\"generator\"",
                &[("content", concat!("Ringland ", env!("CARGO_PKG_VERSION")))],
            )
            .with(
                "meta name=\"ringland-page\"",
                &[("content", &self.read_as.to_string())],
            )
            .el("title", &title)
            .open("style")
            .markup(&style(carried.digest))
            .close("style")
            .close("head")
            .open("body class=\"handover\"")
            .open("main class=\"card\"")
            .markup(&self.first_page())
            .markup(&self.the_rest(carried))
            .markup(&self.contains(carried))
            .markup(&swatch::defs())
            .close("main")
            .close("body")
            .close("html")
            .markup("\n");
        html.done()
    }

    /// For whoever keeps the engine: what was found, on paper on the first sheet.
    fn first_page(&self) -> String {
        let (sheet, words) = (&self.sheet, &self.sheet.words.hand_over);
        let mut html = Html::new();
        if self.altered {
            html.el("p class=\"trouble\" role=\"alert\"", words.altered);
        }
        html.open("div class=\"card__top\"")
            .open("div class=\"card__left\"")
            .open("header class=\"head\"")
            .open("div class=\"head__who\"")
            .markup(&sheet.who())
            .close("div")
            .close("header")
            .markup(&sheet.score())
            .markup(&self.plain())
            .markup(&sheet.reuse())
            .close("div")
            .open("div class=\"card__right wearmap\"")
            .markup(&sheet.map())
            .close("div")
            .close("div")
            .open("div class=\"card__gaps\"")
            .markup(&sheet.worst())
            .open("div class=\"handover__gaps\"")
            .markup(&sheet.not_looked_at())
            .markup(&sheet.left_out())
            .close("div")
            .close("div");
        html.done()
    }

    /// What it was made of, down to the entries.
    fn the_rest(&self, carried: Carried<'_>) -> String {
        let sheet = &self.sheet;
        let mut html = Html::new();
        html.markup(&sheet.sections(true))
            .markup(&sheet.measured(true));
        if let Some((outlook, first)) = self.outlook {
            html.open("section class=\"block outlook\"")
                .el("h2", sheet.words.gauging.left)
                .markup(&sheet.outlook(outlook, first))
                .close("section");
        }
        let rest = [
            sheet.trade(),
            sheet.along(),
            sheet.grades(),
            sheet.people(),
            sheet.remarks(true),
            sheet.photos(),
            sheet.corrections(true),
            sheet.outside(),
            sheet.seals(carried.seals),
            sheet.method(carried.digest, true),
            sheet.cautions(),
        ];
        html.open("div class=\"card__rest\"")
            .markup(&rest.concat())
            .close("div");
        html.done()
    }

    /// The card itself, and how to get at it.
    fn contains(&self, carried: Carried<'_>) -> String {
        let words = &self.sheet.words.hand_over;
        let name = self.sheet.standing.text(FactField::Name);
        let file = file_name(name.unwrap_or_default(), "engine", ".card.json");
        let mut html = Html::new();
        html.open("section class=\"block handover__card\"")
            .el("h2", words.contains)
            .el("p", words.contains_said)
            .open("p")
            .with(
                "a class=\"button\"",
                &[("download", &file), ("href", &carrying(carried.file))],
            )
            .text(words.take_out)
            .close("a")
            .close("p")
            .open("p class=\"num\"")
            .text(self.sheet.words.card.check_word)
            .text(": ")
            .el("b", &check_word(carried.digest))
            .close("p")
            .el("p class=\"fine\"", words.check_said)
            .el("p class=\"fine\"", &words.clock(&self.read_as.zone()))
            .close("section");
        html.done()
    }
}

/// Nothing is loaded and nothing runs, whoever has edited the page.
const POLICY: &str = "meta http-equiv=\"Content-Security-Policy\" \
    content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\"";

/// Everything that gives the page its look. At the foot of each sheet of paper stands which card it is of: of a
/// digest only letters and figures are taken, as nothing in a style may be escaped.
fn style(digest: &str) -> String {
    let plain = digest.trim_start_matches("sha256:").chars();
    let first: String = plain
        .take_while(char::is_ascii_alphanumeric)
        .take(16)
        .collect();
    let foot = [
        "@page{@bottom-left{content:\"Ringland · sha256 ",
        &first,
        "…\"}}",
    ]
    .concat();
    [
        include_str!("../../style/tokens.css"),
        include_str!("../../style/base.css"),
        include_str!("../../style/map.css"),
        include_str!("../../style/card.css"),
        include_str!("../../style/photo.css"),
        &crate::css(),
        include_str!("../../style/handover.css"),
        &foot,
    ]
    .concat()
}
