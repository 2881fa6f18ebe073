//! The page that is handed over, from a card's file.

use std::{fs, path::PathBuf};

use clap::{Args, ValueEnum};
use ringland_card::file::Opened;
use ringland_report::{
    format::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit},
    handover::{ReadAs, page_of, was_read_as},
    words::Language,
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
    let page = page_of(&opened, asked.read_as());
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
    was_read_as(given).is_some_and(|read_as| page_of(opened, read_as) == given)
}
