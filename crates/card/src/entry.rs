//! Entries: what is ever written on a card. An entry is never changed and never removed.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use uom::si::f64::{Length, Time, Volume};

#[cfg(feature = "schema")]
use crate::{
    card::{LONGEST_RATER, LONGEST_TEXT},
    file::schema::Percent,
    scale::MOST_COUNTED,
};
use crate::{
    gauging::{Gauge, Reading, SizeSheet},
    grade::Grade,
    ids::{CharacteristicId, DeviceId, EntryId, LevelId, PositionId, StateId},
    photo::{Mark, Photo, PhotoAreas},
    plan::Plan,
    seal::Seal,
    tagged::tagged_serde,
    time::Timestamp,
};

/// One characteristic in one position.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct At {
    /// Where.
    pub position: PositionId,
    /// What is looked at there.
    pub characteristic: CharacteristicId,
}

impl std::fmt::Display for At {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}/{}", self.position, self.characteristic)
    }
}

/// A place that a remark or a cause is about: a position, or one characteristic of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct About {
    /// Where.
    pub position: PositionId,
    /// What there; the whole position if it is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub characteristic: Option<CharacteristicId>,
}

/// A painted stretch of an unrolled surface.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend("prefixItems" = [
    { "$ref": "#/$defs/LevelId" },
    { "type": "integer", "minimum": 0, "maximum": SECTORS },
])))]
#[serde(from = "(LevelId, u8)", into = "(LevelId, u8)")]
pub struct Stretch {
    /// Its level; `clean` for the rest.
    pub level: LevelId,
    /// How many sectors it runs over.
    pub sectors: u8,
}

impl From<(LevelId, u8)> for Stretch {
    fn from((level, sectors): (LevelId, u8)) -> Self {
        Self { level, sectors }
    }
}

impl From<Stretch> for (LevelId, u8) {
    fn from(stretch: Stretch) -> Self {
        (stretch.level, stretch.sectors)
    }
}

/// Sectors of an unrolled land or skirt: one every ten degrees from the front.
pub const SECTORS: u8 = 36;

/// Percent of an area at each level; what is left is clean.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Areas {
    /// Percent by level.
    #[cfg_attr(feature = "schema", schemars(with = "BTreeMap<LevelId, Percent>"))]
    pub shares: BTreeMap<LevelId, f64>,
    /// How it was painted from the front round, where it was painted; 36 sectors in all.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub painted: Vec<Stretch>,
    /// How they were read off a photo, where they were.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub read_off: Option<Box<PhotoAreas>>,
}

/// Why a position was not looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum NotInspected {
    /// Left in place, or not taken apart.
    LeftAssembled,
    /// Not to be reached or seen.
    OutOfReach,
    /// Cleaned before anyone looked.
    Cleaned,
    /// Missing, replaced or not fitted.
    Missing,
    /// Sent away or cut up.
    SentAway,
    /// Damaged in taking apart.
    Damaged,
    /// No time for it.
    NoTime,
}

impl NotInspected {
    /// Every reason, in the order in which they are offered.
    pub const ALL: [Self; 7] = [
        Self::LeftAssembled,
        Self::OutOfReach,
        Self::Cleaned,
        Self::Missing,
        Self::SentAway,
        Self::Damaged,
        Self::NoTime,
    ];
}

/// What one rater saw.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Look {
    /// A wear grade.
    Grade(Grade),
    /// Percent of area by level.
    Areas(Areas),
    /// A percentage, 0 to 100.
    Percent(#[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))] f64),
    /// A count, 0 or more.
    Count(#[cfg_attr(feature = "schema", schemars(range(min = 0, max = MOST_COUNTED)))] i64),
    /// A state of the scale.
    State(StateId),
    /// Nothing, for a reason. Also an answer.
    NotInspected(NotInspected),
}

impl Look {
    /// How it was read off a photo, where it was.
    pub fn read_off(&self) -> Option<&PhotoAreas> {
        match self {
            Self::Areas(areas) => areas.read_off.as_deref(),
            _ => None,
        }
    }
}

/// What is answerable for what was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// What the oil answers for.
    InService,
    /// Dirt that came in.
    Dirt,
    /// Coolant in the oil.
    Coolant,
    /// Fuel in the oil, or bad injection.
    Fuel,
    /// Overheating.
    Overheating,
    /// Assembly or an earlier repair.
    Assembly,
    /// A mechanical failure elsewhere.
    Mechanical,
    /// Not known; it stays with what is in service.
    Unknown,
}

impl Cause {
    /// Every cause, in the order in which they are offered.
    pub const ALL: [Self; 8] = [
        Self::InService,
        Self::Dirt,
        Self::Coolant,
        Self::Fuel,
        Self::Overheating,
        Self::Assembly,
        Self::Mechanical,
        Self::Unknown,
    ];

    /// Whether the oil is not answerable: only a cause that is known excludes.
    pub fn excludes(self) -> bool {
        !matches!(self, Self::InService | Self::Unknown)
    }
}

/// A fact about the engine or the trial. Every one may be left open.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(tag = "field", content = "value"))]
#[serde(remote = "Self", rename_all = "snake_case")]
pub enum Fact {
    /// What the engine is called here.
    Name(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// Whose it is.
    Fleet(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// What it was taken out of.
    Vehicle(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// The engine model.
    Model(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// The engine's serial number.
    Serial(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// Where it worked.
    Site(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// What it did.
    Duty(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// Distance run since new or overhaul, metres.
    DistanceM(#[cfg_attr(feature = "schema", schemars(with = "f64", range(min = 0.0)))] Length),
    /// Time run, seconds.
    RunningTimeS(#[cfg_attr(feature = "schema", schemars(with = "f64", range(min = 0.0)))] Time),
    /// Fuel burned, cubic metres.
    FuelM3(#[cfg_attr(feature = "schema", schemars(with = "f64", range(min = 0.0)))] Volume),
    /// The oil, by the trial's name for it.
    Oil(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// Its viscosity grade, such as 10W-30.
    OilGrade(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// Its service category.
    OilCategory(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
    /// Distance between drains, metres.
    DrainDistanceM(
        #[cfg_attr(feature = "schema", schemars(with = "f64", range(min = 0.0)))] Length,
    ),
    /// Time between drains, seconds.
    DrainTimeS(#[cfg_attr(feature = "schema", schemars(with = "f64", range(min = 0.0)))] Time),
    /// Oil in the sump, cubic metres.
    SumpM3(#[cfg_attr(feature = "schema", schemars(with = "f64", range(min = 0.0)))] Volume),
    /// Why the engine came out.
    Reason(#[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))] String),
}

tagged_serde!(Fact);

/// What a fact is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FactField {
    /// See [`Fact::Name`].
    Name,
    /// See [`Fact::Fleet`].
    Fleet,
    /// See [`Fact::Vehicle`].
    Vehicle,
    /// See [`Fact::Model`].
    Model,
    /// See [`Fact::Serial`].
    Serial,
    /// See [`Fact::Site`].
    Site,
    /// See [`Fact::Duty`].
    Duty,
    /// See [`Fact::DistanceM`].
    Distance,
    /// See [`Fact::RunningTimeS`].
    RunningTime,
    /// See [`Fact::FuelM3`].
    Fuel,
    /// See [`Fact::Oil`].
    Oil,
    /// See [`Fact::OilGrade`].
    OilGrade,
    /// See [`Fact::OilCategory`].
    OilCategory,
    /// See [`Fact::DrainDistanceM`].
    DrainDistance,
    /// See [`Fact::DrainTimeS`].
    DrainTime,
    /// See [`Fact::SumpM3`].
    Sump,
    /// See [`Fact::Reason`].
    Reason,
}

impl Fact {
    /// What the fact is about.
    pub fn field(&self) -> FactField {
        match self {
            Self::Name(_) => FactField::Name,
            Self::Fleet(_) => FactField::Fleet,
            Self::Vehicle(_) => FactField::Vehicle,
            Self::Model(_) => FactField::Model,
            Self::Serial(_) => FactField::Serial,
            Self::Site(_) => FactField::Site,
            Self::Duty(_) => FactField::Duty,
            Self::DistanceM(_) => FactField::Distance,
            Self::RunningTimeS(_) => FactField::RunningTime,
            Self::FuelM3(_) => FactField::Fuel,
            Self::Oil(_) => FactField::Oil,
            Self::OilGrade(_) => FactField::OilGrade,
            Self::OilCategory(_) => FactField::OilCategory,
            Self::DrainDistanceM(_) => FactField::DrainDistance,
            Self::DrainTimeS(_) => FactField::DrainTime,
            Self::SumpM3(_) => FactField::Sump,
            Self::Reason(_) => FactField::Reason,
        }
    }

    /// The text of a fact that is one.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Name(text)
            | Self::Fleet(text)
            | Self::Vehicle(text)
            | Self::Model(text)
            | Self::Serial(text)
            | Self::Site(text)
            | Self::Duty(text)
            | Self::Oil(text)
            | Self::OilGrade(text)
            | Self::OilCategory(text)
            | Self::Reason(text) => Some(text),
            _ => None,
        }
    }

    /// The figure of a fact that is one, in SI units.
    pub fn si(&self) -> Option<f64> {
        match self {
            Self::DistanceM(length) | Self::DrainDistanceM(length) => Some(length.value),
            Self::RunningTimeS(time) | Self::DrainTimeS(time) => Some(time.value),
            Self::FuelM3(volume) | Self::SumpM3(volume) => Some(volume.value),
            _ => None,
        }
    }
}

/// What an entry says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(transform = crate::file::schema::with_other_kinds))]
#[cfg_attr(feature = "schema", schemars(tag = "kind"))]
#[serde(remote = "Self", rename_all = "snake_case")]
pub enum Body {
    /// A fact about the engine or the trial.
    Fact {
        /// The fact.
        fact: Fact,
    },
    /// One look by one rater.
    Rating {
        /// Where, and at what.
        at: At,
        /// What was seen.
        look: Look,
    },
    /// One measured size.
    Measurement {
        /// Where, and of what.
        at: At,
        /// The size in the SI unit of the plan's scale.
        value: f64,
    },
    /// What a gauge showed on one spot of a part.
    Reading {
        /// The reading.
        reading: Box<Reading>,
    },
    /// A gauge that readings here name.
    Gauge {
        /// The gauge.
        gauge: Box<Gauge>,
    },
    /// The sizes that this engine is held against, whole.
    Sizes {
        /// The sheet.
        sheet: Box<SizeSheet>,
    },
    /// Words about a position, or about the engine.
    Remark {
        /// What it is about; the engine if it is left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        about: Option<About>,
        /// The words.
        #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))]
        text: String,
    },
    /// A photo of a position, or of the engine. Its bytes stand beside the card.
    Photo {
        /// What it shows; the engine if it is left out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        about: Option<About>,
        /// The photo.
        photo: Box<Photo>,
    },
    /// What somebody marked on a photo.
    Mark {
        /// The entry of the photo.
        on: EntryId,
        /// The mark.
        mark: Mark,
    },
    /// What is answerable for what was seen somewhere.
    Cause {
        /// Where.
        about: About,
        /// What is answerable.
        cause: Cause,
    },
    /// Somebody's word that what stands on the card now is what they hand over.
    Seal {
        /// The seal.
        seal: Box<Seal>,
    },
    /// Another plan for this card, whole.
    Plan {
        /// The plan.
        plan: Box<Plan>,
    },
    /// Takes an earlier entry out of account.
    Void {
        /// The entry.
        entry: EntryId,
        /// Why.
        #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))]
        reason: String,
    },
    /// A kind of a newer version of the format, kept as it came.
    #[serde(skip)]
    #[cfg_attr(feature = "schema", schemars(skip))]
    Other(serde_json::Map<String, serde_json::Value>),
}

tagged_serde!(Body);

/// An entry's place in the order of all entries, the same on every tablet whatever its clock says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct OrderKey {
    /// The Lamport counter.
    pub lamport: u64,
    /// The device that wrote it.
    pub device: DeviceId,
    /// The entry's id.
    pub id: EntryId,
}

/// One immutable entry of a card.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Entry {
    /// Its id.
    pub id: EntryId,
    /// The device that wrote it.
    pub device: DeviceId,
    /// Lamport counter: greater than that of every entry the device knew when it wrote this one.
    #[cfg_attr(feature = "schema", schemars(range(max = MOST_LAMPORT)))]
    pub lamport: u64,
    /// When, by the device's clock. For people to read; the order does not look at it.
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("format" = "date-time")))]
    pub time: Timestamp,
    /// Who.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = LONGEST_RATER)))]
    pub rater: String,
    /// The entry that this one corrects.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supersedes: Option<EntryId>,
    /// What it says.
    pub body: Body,
    /// Fields of a newer version of the format, kept as they came.
    #[serde(skip)]
    #[cfg_attr(feature = "schema", schemars(skip))]
    pub(crate) residue: Option<serde_json::Value>,
}

/// The largest Lamport counter: the largest whole number that every JSON reader keeps exact.
pub const MOST_LAMPORT: u64 = (1 << 53) - 1;

impl Entry {
    /// A new entry that corrects nothing.
    pub fn new(
        id: EntryId,
        device: DeviceId,
        lamport: u64,
        time: Timestamp,
        rater: &str,
        body: Body,
    ) -> Self {
        Self {
            id,
            device,
            lamport,
            time,
            rater: rater.to_owned(),
            supersedes: None,
            body,
            residue: None,
        }
    }

    /// The same entry as a correction of another.
    #[must_use]
    pub fn superseding(mut self, corrected: EntryId) -> Self {
        self.supersedes = Some(corrected);
        self
    }

    /// Its place in the order.
    pub fn order(&self) -> OrderKey {
        OrderKey {
            lamport: self.lamport,
            device: self.device,
            id: self.id,
        }
    }
}
