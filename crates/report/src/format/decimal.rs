//! Figures as a gauge types them: every digit kept, a unit behind them where the gauge sends one.

use ringland_card::gauging::{Decimal, Unit};

use super::{NumberError, parse_number};

/// What was typed for one spot.
#[derive(Clone, Debug, PartialEq)]
pub struct TypedReading {
    /// The figures, one or repeated.
    pub values: Vec<Decimal>,
    /// The unit that stood behind the last of them.
    pub unit: Option<Unit>,
}

/// How units are typed; the longest of those that begin alike first.
const UNITS: [(&str, Unit); 12] = [
    ("mm", Unit::Mm),
    ("µm", Unit::Um),
    ("μm", Unit::Um),
    ("um", Unit::Um),
    ("inch", Unit::In),
    ("in", Unit::In),
    ("\"", Unit::In),
    ("″", Unit::In),
    ("thou", Unit::Mil),
    ("mil", Unit::Mil),
    ("mg", Unit::Mg),
    ("g", Unit::G),
];

/// Reads one figure with every digit that was typed; comma and point are both decimal signs.
///
/// # Errors
///
/// [`NumberError`] with what was typed.
pub fn parse_decimal(text: &str) -> Result<Decimal, NumberError> {
    // What a number may be is told by the reader of all numbers.
    parse_number(text)?;
    let plain: String = text
        .chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '\'' | '’' | '+'))
        .map(|c| match c {
            ',' => '.',
            '−' => '-',
            other => other,
        })
        .collect();
    let digits = plain.trim_start_matches('-').trim_start_matches('.');
    let plain = match plain.split_once('.') {
        // ".5" and "5." are typed, and meant as 0.5 and 5.
        Some(("", fraction)) => format!("0.{fraction}"),
        Some(("-", fraction)) => format!("-0.{fraction}"),
        Some((whole, "")) => whole.to_owned(),
        _ => plain.clone(),
    };
    Decimal::new(&plain).map_err(|_not_one| NumberError::Groups {
        given: digits.chars().take(20).collect(),
    })
}

/// Reads what was typed for a spot: figures parted by spaces or semicolons, and a unit.
///
/// # Errors
///
/// [`NumberError`] with what was typed.
pub fn parse_reading(text: &str) -> Result<TypedReading, NumberError> {
    let text = text.trim();
    let (figures, unit) = split_unit(text);
    let figures = figures.split([' ', '\u{a0}', ';', '\t']);
    let values = figures
        .filter(|figure| !figure.is_empty())
        .map(parse_decimal)
        .collect::<Result<Vec<Decimal>, NumberError>>()?;
    if values.is_empty() {
        return Err(NumberError::Empty);
    }
    Ok(TypedReading { values, unit })
}

fn split_unit(text: &str) -> (&str, Option<Unit>) {
    for (sign, unit) in UNITS {
        if let Some(figures) = text.strip_suffix(sign) {
            return (figures.trim_end(), Some(unit));
        }
    }
    match text.strip_suffix("oz") {
        Some(figures) => (figures.trim_end(), Some(Unit::Oz)),
        None => (text, None),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_digit_is_kept() {
        for (typed, kept) in [
            ("129.410", "129.410"),
            ("129,410", "129.410"),
            (" .05", "0.05"),
            ("-.002", "-0.002"),
            ("−0,002", "-0.002"),
            ("5.", "5"),
        ] {
            assert_eq!(parse_decimal(typed).unwrap().as_str(), kept, "{typed}");
        }
        for wrong in ["", "x", "1.2.3", "1e3", "12 34"] {
            assert!(parse_decimal(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn repeats_and_units_are_understood() {
        let of = |text: &str| {
            let read = parse_reading(text).unwrap();
            let values: Vec<String> = read.values.iter().map(ToString::to_string).collect();
            (values.join("|"), read.unit)
        };
        assert_eq!(of("129.41"), ("129.41".to_owned(), None));
        assert_eq!(
            of("129,410 129,412 mm"),
            ("129.410|129.412".to_owned(), Some(Unit::Mm))
        );
        assert_eq!(of("5.1181\""), ("5.1181".to_owned(), Some(Unit::In)));
        assert_eq!(of("42.1g"), ("42.1".to_owned(), Some(Unit::G)));
        assert_eq!(of("3 mg"), ("3".to_owned(), Some(Unit::Mg)));
        assert_eq!(of("1.5 oz"), ("1.5".to_owned(), Some(Unit::Oz)));
        assert_eq!(of("4.5 um"), ("4.5".to_owned(), Some(Unit::Um)));
        assert!(parse_reading("mm").is_err());
        assert!(parse_reading("129.4 km").is_err());
    }
}
