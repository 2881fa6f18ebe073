//! The facts as fields of a form: their names, what may be typed, and what it comes to.

use ringland_card::{Fact, FactField};
use ringland_report::{
    format::{NumberError, Reading, UnitPrefs, units::parse_hours},
    words::Words,
};

/// A group of fields under one title.
#[derive(Clone, Copy, Debug)]
pub struct Group {
    /// Its title.
    pub title: fn(&Words) -> &'static str,
    /// Its fields in order.
    pub fields: &'static [FactField],
}

/// All fields, in the order in which a person at the bench knows them.
pub const GROUPS: [Group; 3] = [
    Group {
        title: |words| words.facts.identity,
        fields: &[
            FactField::Name,
            FactField::Fleet,
            FactField::Vehicle,
            FactField::Model,
            FactField::Serial,
            FactField::Site,
        ],
    },
    Group {
        title: |words| words.facts.work,
        fields: &[
            FactField::Distance,
            FactField::RunningTime,
            FactField::Duty,
            FactField::Fuel,
            FactField::Reason,
        ],
    },
    Group {
        title: |words| words.facts.oil_group,
        fields: &[
            FactField::Oil,
            FactField::OilGrade,
            FactField::OilCategory,
            FactField::DrainDistance,
            FactField::DrainTime,
            FactField::Sump,
        ],
    },
];

/// Every field, in order.
pub fn all() -> impl Iterator<Item = FactField> {
    GROUPS.iter().flat_map(|group| group.fields.iter().copied())
}

/// What is typed into a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Words.
    Text,
    /// A distance with its unit.
    Distance,
    /// Hours.
    Hours,
    /// A volume with its unit; large or small figures.
    Volume(Reading),
}

/// What is typed into that field.
pub fn kind(field: FactField) -> Kind {
    match field {
        FactField::Distance | FactField::DrainDistance => Kind::Distance,
        FactField::RunningTime | FactField::DrainTime => Kind::Hours,
        FactField::Fuel => Kind::Volume(Reading::Large),
        FactField::Sump => Kind::Volume(Reading::Plain),
        _ => Kind::Text,
    }
}

/// The field's id on the page.
pub fn id(field: FactField) -> &'static str {
    match field {
        FactField::Name => "fact-name",
        FactField::Fleet => "fact-fleet",
        FactField::Vehicle => "fact-vehicle",
        FactField::Model => "fact-model",
        FactField::Serial => "fact-serial",
        FactField::Site => "fact-site",
        FactField::Duty => "fact-duty",
        FactField::Distance => "fact-distance",
        FactField::RunningTime => "fact-running-time",
        FactField::Fuel => "fact-fuel",
        FactField::Oil => "fact-oil",
        FactField::OilGrade => "fact-oil-grade",
        FactField::OilCategory => "fact-oil-category",
        FactField::DrainDistance => "fact-drain-distance",
        FactField::DrainTime => "fact-drain-time",
        FactField::Sump => "fact-sump",
        FactField::Reason => "fact-reason",
    }
}

/// The fact that a text in a field says; none where it was left open.
///
/// # Errors
///
/// [`NumberError`] where it takes a figure and is none.
pub fn read(field: FactField, text: &str, units: UnitPrefs) -> Result<Option<Fact>, NumberError> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let distance = || units.distance.parse(text).map(|(distance, _)| distance);
    let volume = |reading| units.volume.parse(text, reading).map(|(volume, _)| volume);
    let words = || text.to_owned();
    Ok(Some(match field {
        FactField::Name => Fact::Name(words()),
        FactField::Fleet => Fact::Fleet(words()),
        FactField::Vehicle => Fact::Vehicle(words()),
        FactField::Model => Fact::Model(words()),
        FactField::Serial => Fact::Serial(words()),
        FactField::Site => Fact::Site(words()),
        FactField::Duty => Fact::Duty(words()),
        FactField::Distance => Fact::DistanceM(distance()?),
        FactField::RunningTime => Fact::RunningTimeS(parse_hours(text)?),
        FactField::Fuel => Fact::FuelM3(volume(Reading::Large)?),
        FactField::Oil => Fact::Oil(words()),
        FactField::OilGrade => Fact::OilGrade(words()),
        FactField::OilCategory => Fact::OilCategory(words()),
        FactField::DrainDistance => Fact::DrainDistanceM(distance()?),
        FactField::DrainTime => Fact::DrainTimeS(parse_hours(text)?),
        FactField::Sump => Fact::SumpM3(volume(Reading::Plain)?),
        FactField::Reason => Fact::Reason(words()),
    }))
}

#[cfg(test)]
mod tests {
    use ringland_report::{
        format::{DistanceUnit, VolumeUnit},
        words::{Language, words},
    };

    use super::*;

    fn mixed() -> UnitPrefs {
        UnitPrefs {
            distance: DistanceUnit::Mile,
            volume: VolumeUnit::Litre,
            ..UnitPrefs::default()
        }
    }

    #[track_caller]
    fn si(field: FactField, text: &str, units: UnitPrefs, wanted: f64) {
        let fact = read(field, text, units).unwrap().unwrap();
        assert_eq!(fact.field(), field);
        let is = fact.si().unwrap();
        assert!((is - wanted).abs() <= 1e-9 * wanted, "{text}: {is}");
    }

    #[test]
    fn figures_are_read_in_the_unit_typed_or_set() {
        let metric = UnitPrefs::default();
        si(FactField::Distance, "500,000 mi", metric, 804_672_000.0);
        si(FactField::Distance, "800 000 km", mixed(), 8e8);
        si(FactField::Distance, "500000", mixed(), 804_672_000.0);
        si(FactField::Sump, "12,5", metric, 0.0125);
        si(FactField::Sump, "10 gal", metric, 0.037_854_117_84);
        si(FactField::RunningTime, "14,930", metric, 14_930.0 * 3600.0);
        assert!(read(FactField::Distance, "far", metric).is_err());
        assert!(read(FactField::DrainTime, "500 km", metric).is_err());
        assert_eq!(read(FactField::Fuel, "  ", metric), Ok(None));
    }

    #[test]
    fn what_is_shown_is_read_back_under_any_setting() {
        let words = words(Language::English);
        let metric = UnitPrefs::default();
        for (field, text) in [
            (FactField::Distance, "812,400 km"),
            (FactField::DrainDistance, "60,000 km"),
            (FactField::RunningTime, "14,930 h"),
            (FactField::Fuel, "240,000 L"),
            (FactField::Sump, "37.9 L"),
            (FactField::OilGrade, "10W-30"),
        ] {
            let fact = read(field, text, metric).unwrap().unwrap();
            let shown = words.fact_value(&fact, metric);
            assert_eq!(shown.replace('\u{a0}', " "), text);
            assert_eq!(read(field, &shown, mixed()), Ok(Some(fact)));
        }
    }

    #[test]
    fn every_field_stands_in_one_group_and_has_an_id_and_a_name() {
        let words = words(Language::English);
        let fields: Vec<FactField> = all().collect();
        let mut ids: Vec<&str> = fields.iter().copied().map(id).collect();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!((fields.len(), ids.len()), (17, 17));
        for field in fields {
            assert!(!words.fact_name(field).is_empty());
        }
    }
}
