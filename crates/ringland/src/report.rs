//! The page that is handed over, from a card's file.

use std::{borrow::Cow, collections::BTreeSet, fs, path::PathBuf};

use clap::{Args, ValueEnum};
use ringland_card::{
    PhotoDigest, file,
    photo::{Picture, PictureKind},
};
use ringland_report::{
    format::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit},
    handover::{Choice, ReadAs, chosen, page_of, was_read_as},
    photo::{Piece, pieces},
    words::Language,
};

use crate::given::Given;

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
    /// Which of the photos that are in the file stand in the page.
    #[arg(long, value_enum, default_value_t = Pictures::All)]
    photos: Pictures,
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

/// Which photos stand in the page.
#[derive(Clone, Copy, Debug, ValueEnum)]
enum Pictures {
    /// None.
    None,
    /// One of each of the worst positions.
    Worst,
    /// All.
    All,
}

impl From<Pictures> for Choice {
    fn from(pictures: Pictures) -> Self {
        match pictures {
            Pictures::None => Self::None,
            Pictures::Worst => Self::Worst,
            Pictures::All => Self::All,
        }
    }
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
    let given = Given::read(&asked.file)?;
    let here: BTreeSet<PhotoDigest> = given.photos.keys().copied().collect();
    let chosen = chosen(&given.opened, asked.photos.into(), &here);
    let page = whole(&page_of(&given.opened, asked.read_as(), &chosen), &given);
    fs::write(&asked.output, &page).map_err(|why| super::at(&asked.output)(&why))?;
    let warned = if given.opened.digest_matches {
        ""
    } else {
        "; the card was altered after it was written, and the page says so"
    };
    Ok(format!(
        "{}: {} bytes, photos: {}{warned}",
        asked.output.display(),
        page.len(),
        chosen.len()
    ))
}

/// A page with the bytes of its pictures.
fn whole(page: &str, given: &Given) -> String {
    let pieces = pieces(page).into_iter();
    let pieces = pieces.map(|piece| match piece {
        Piece::Text(text) => Cow::Borrowed(text),
        Piece::Photo(digest) => Cow::Owned(match given.photos.get(&digest) {
            Some(bytes) => file::showing(kind_of(bytes), bytes),
            None => String::new(),
        }),
    });
    pieces.collect()
}

fn kind_of(bytes: &[u8]) -> PictureKind {
    Picture::of(bytes).map_or(PictureKind::Jpeg, |picture| picture.kind)
}

/// Whether a page is the one that would be written now of the card and the photos that it carries.
pub(crate) fn is_as_written(bytes: &[u8], given: &Given) -> bool {
    let Ok(page) = std::str::from_utf8(bytes) else {
        return false;
    };
    let here = given.photos.keys().copied().collect();
    was_read_as(page)
        .is_some_and(|read_as| whole(&page_of(&given.opened, read_as, &here), given) == page)
}
