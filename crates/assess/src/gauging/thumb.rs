//! Public rules of thumb for wear limits where the engine maker's are not at hand.
//!
//! They come from public repair manuals for engines in general and hold for no engine in particular. They are
//! never used unless somebody asks for them, and each says where it comes from.

use ringland_card::{
    gauging::{Decimal, Size, SizeField, Unit},
    ids::{CharacteristicId, PlaceId},
};

/// How a rule makes a limit of the range of new parts.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Makes {
    /// So much over the largest new size, per size.
    OverPerSize(f64),
    /// So much under the smallest new size, per size.
    UnderPerSize(f64),
    /// So many inches over the largest new size.
    OverInches(f64),
    /// So many inches under the smallest new size.
    UnderInches(f64),
    /// So much of the size, as a shape.
    ShapePerSize(f64),
    /// So many inches, as a shape.
    ShapeInches(f64),
}

/// A rule of thumb.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// The places it holds for, by the beginning of their ids.
    place: &'static str,
    /// The characteristic.
    look: &'static str,
    /// The figure that it fills.
    pub field: SizeField,
    makes: Makes,
    /// Where it comes from.
    pub source: &'static str,
}

const SLEEVES: &str = "TM 10-3930-647-14&P";
const LINER_SET: &str = "TM 9-2815-260-24, table 5-11";
const GROOVES: &str = "TM 9-2815-226-34-1";

/// The rules, as the manuals give them: in inches, or in inches for each inch of the size.
const RULES: [Rule; 12] = [
    rule(
        "liner",
        "bore",
        SizeField::LimitHigh,
        Makes::OverPerSize(0.001),
        SLEEVES,
    ),
    rule(
        "liner",
        "bore",
        SizeField::OutOfRound,
        Makes::ShapeInches(0.002),
        LINER_SET,
    ),
    rule(
        "liner",
        "bore",
        SizeField::Taper,
        Makes::ShapeInches(0.002),
        LINER_SET,
    ),
    rule(
        "piston",
        "skirt_diameter",
        SizeField::LimitLow,
        Makes::UnderPerSize(0.0005),
        SLEEVES,
    ),
    rule(
        "piston",
        "pin_bore_diameter",
        SizeField::LimitHigh,
        Makes::OverPerSize(0.0005),
        SLEEVES,
    ),
    rule(
        "piston",
        "groove_1_width",
        SizeField::LimitHigh,
        Makes::OverInches(0.006),
        GROOVES,
    ),
    rule(
        "piston",
        "groove_2_width",
        SizeField::LimitHigh,
        Makes::OverInches(0.006),
        GROOVES,
    ),
    rule(
        "pin",
        "diameter",
        SizeField::LimitLow,
        Makes::UnderInches(0.001),
        SLEEVES,
    ),
    rule(
        "rod",
        "bush_diameter",
        SizeField::LimitHigh,
        Makes::OverPerSize(0.0005),
        SLEEVES,
    ),
    rule(
        "rod_journal",
        "diameter",
        SizeField::OutOfRound,
        Makes::ShapePerSize(0.0004),
        SLEEVES,
    ),
    rule(
        "main_journal",
        "diameter",
        SizeField::OutOfRound,
        Makes::ShapePerSize(0.0004),
        SLEEVES,
    ),
    rule(
        "crank_float",
        "end_float",
        SizeField::LimitHigh,
        Makes::OverInches(0.005),
        SLEEVES,
    ),
];

const fn rule(
    place: &'static str,
    look: &'static str,
    field: SizeField,
    makes: Makes,
    source: &'static str,
) -> Rule {
    Rule {
        place,
        look,
        field,
        makes,
        source,
    }
}

impl Rule {
    /// The rules for a characteristic of a place.
    pub fn of(place: &PlaceId, look: &CharacteristicId) -> impl Iterator<Item = &'static Self> {
        let (place, look) = (place.as_str().to_owned(), look.as_str().to_owned());
        RULES
            .iter()
            .filter(move |rule| rule.place == place && rule.look == look)
    }

    /// The limit for a range of new parts, in SI units; none where the range is not known.
    fn limit(&self, size: &Size) -> Option<f64> {
        let (low, high) = (size.si(SizeField::NewLow)?, size.si(SizeField::NewHigh)?);
        let inches = |inches: f64| Unit::In.to_si(inches);
        Some(match self.makes {
            Makes::OverPerSize(share) => high * (1.0 + share),
            Makes::UnderPerSize(share) => low * (1.0 - share),
            Makes::OverInches(over) => high + inches(over),
            Makes::UnderInches(under) => low - inches(under),
            Makes::ShapePerSize(share) => high * share,
            Makes::ShapeInches(most) => inches(most),
        })
    }
}

/// Fills what a size lacks by rules of thumb, where its new range is known, and says which were used. The
/// limits are written with a digit more than the new sizes.
pub fn fill(size: &mut Size) -> Vec<&'static Rule> {
    let decimals = [&size.new_low, &size.new_high]
        .into_iter()
        .flatten()
        .map(Decimal::places)
        .max()
        .unwrap_or_default()
        + 1;
    let mut used = Vec::new();
    for rule in Rule::of(&size.place.clone(), &size.characteristic.clone()) {
        if size.field(rule.field).is_none()
            && let Some(limit) = rule.limit(size)
            && let Ok(limit) = Decimal::new(&format!("{:.decimals$}", size.unit.of_si(limit)))
        {
            *size.field_mut(rule.field) = Some(limit);
            used.push(rule);
        }
    }
    used
}

#[cfg(test)]
mod tests {
    use super::*;

    fn filled(place: &str, look: &str, low: &str, high: &str) -> Size {
        let place = PlaceId::new(place).unwrap();
        let look = CharacteristicId::new(look).unwrap();
        let mut size = Size::open(place, look, Unit::Mm);
        size.new_low = Some(Decimal::new(low).unwrap());
        size.new_high = Some(Decimal::new(high).unwrap());
        assert!(!fill(&mut size).is_empty());
        size
    }

    /// Worked out by hand from the manuals' inches: a 130 mm bore, a 100 mm journal.
    #[test]
    fn the_manuals_inches_come_to_these_millimetres() {
        let bore = filled("liner", "bore", "129.98", "130.00");
        let limit = |size: &Size, field| size.field(field).map(ToString::to_string);
        assert_eq!(
            limit(&bore, SizeField::LimitHigh).as_deref(),
            Some("130.130")
        );
        assert_eq!(
            limit(&bore, SizeField::OutOfRound).as_deref(),
            Some("0.051")
        );
        let journal = filled("main_journal", "diameter", "99.98", "100.00");
        assert_eq!(
            limit(&journal, SizeField::OutOfRound).as_deref(),
            Some("0.040")
        );
        let float = filled("crank_float", "end_float", "0.10", "0.30");
        assert_eq!(
            limit(&float, SizeField::LimitHigh).as_deref(),
            Some("0.427")
        );
    }

    #[test]
    fn what_is_typed_stays_and_what_is_not_known_is_not_guessed() {
        let place = PlaceId::new("liner").unwrap();
        let look = CharacteristicId::new("bore").unwrap();
        let mut size = Size::open(place, look, Unit::Mm);
        // The public figure for out-of-round and taper of a liner set needs no new size, but a part of which
        // nothing is known is left alone.
        assert!(fill(&mut size).is_empty() && size.is_open());
        size.new_low = Some(Decimal::new("129.98").unwrap());
        size.new_high = Some(Decimal::new("130.00").unwrap());
        size.limit_high = Some(Decimal::new("130.2").unwrap());
        let used = fill(&mut size);
        assert_eq!(size.limit_high.as_ref().unwrap().as_str(), "130.2");
        assert!(used.iter().all(|rule| rule.field != SizeField::LimitHigh));
    }
}
