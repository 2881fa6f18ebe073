//! The page that is handed over, from a card's file.

use std::{fs, path::PathBuf};

use clap::{Args, ValueEnum};
use ringland_assess::{
    Tree, assess,
    gauging::{finding::findings, outlook::Outlook},
    weights::{DRAWS, SEED, dependence},
};
use ringland_card::file::{self, DigestingCard, Opened};
use ringland_report::{
    card::Sheet,
    format::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit},
    handover::{Carried, HandOver, ReadAs, was_read_as},
    words::{Language, words},
};

/// What is written, and how it is to be read.
#[derive(Debug, Args)]
pub(crate) struct Asked {
    /// The card's file, or a page that carries one.
    file: PathBuf,
    /// Where to write the page.
    #[arg(short, long)]
    output: PathBuf,
    /// The language.
    #[arg(long, value_enum, default_value_t = In::En)]
    language: In,
    /// Miles, US gallons, inches and degrees Fahrenheit.
    #[arg(long)]
    us_units: bool,
    /// Minutes that the clock is ahead of UTC.
    #[arg(long, value_name = "MINUTES", default_value_t = 0, allow_negative_numbers = true,
        value_parser = clap::value_parser!(i32).range(-1440..=1440))]
    utc_offset: i32,
}

/// The languages.
#[derive(Clone, Copy, Debug, ValueEnum)]
enum In {
    /// English.
    En,
    /// Spanish.
    Es,
}

impl Asked {
    fn read_as(&self) -> ReadAs {
        let us = UnitPrefs {
            distance: DistanceUnit::Mile,
            volume: VolumeUnit::UsGallon,
            length: LengthUnit::Inch,
            temperature: TemperatureUnit::Fahrenheit,
        };
        ReadAs {
            language: match self.language {
                In::En => Language::English,
                In::Es => Language::Spanish,
            },
            units: if self.us_units {
                us
            } else {
                UnitPrefs::default()
            },
            offset_minutes: self.utc_offset,
        }
    }
}

/// Writes the page and says so.
pub(crate) fn write(asked: &Asked) -> Result<String, String> {
    let opened = super::open(&asked.file)?;
    let page = page(&opened, asked.read_as());
    fs::write(&asked.output, &page).map_err(|why| super::at(&asked.output)(&why))?;
    let warned = if opened.digest_matches {
        ""
    } else {
        "; the card was altered after it was written, and the page says so"
    };
    Ok(format!(
        "{}: {} bytes{warned}",
        asked.output.display(),
        page.len()
    ))
}

/// Whether a page is the one that would be written now of the card that it carries.
pub(crate) fn is_as_written(bytes: &[u8], opened: &Opened) -> bool {
    let Ok(given) = std::str::from_utf8(bytes) else {
        return false;
    };
    was_read_as(given).is_some_and(|read_as| page(opened, read_as) == given)
}

fn page(opened: &Opened, read_as: ReadAs) -> String {
    let card = &opened.card;
    let (tree, standing) = (Tree::of(card.plan()), card.standing());
    let result = assess(&standing, &tree);
    let drawn = dependence(
        card.plan(),
        card.index(),
        &tree,
        &result.leaves,
        &result.all,
        SEED,
        DRAWS,
    );
    let outlook = Outlook::of(&findings(&standing));
    let first = outlook
        .as_ref()
        .and_then(|outlook| outlook.first_limit().ok());
    let mut sheet = Sheet::new(card, &tree, &result, words(read_as.language));
    sheet.other_weights = drawn.as_ref().map(|drawn| (drawn, SEED));
    let text = if opened.digest_matches {
        file::write(card)
    } else {
        file::write_as_altered(card)
    };
    let digest = DigestingCard::new(card).finish(card);
    let left = outlook.as_ref().zip(first.as_ref());
    HandOver::new(sheet, read_as, left, !opened.digest_matches).page(Carried {
        file: &text,
        digest: &digest,
    })
}
