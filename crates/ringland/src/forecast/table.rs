//! Reads a table of readings. It comes from outside: every number is checked, and what is wrong is said
//! with its line and column.

use ringland_assess::gauging::forecast::Unit;

/// The columns, in this order.
const COLUMNS: [&str; 3] = ["unit", "distance", "wear"];
/// More readings than any trial has.
const MOST_READINGS: usize = 100_000;

/// Why a table is not understood.
#[derive(Debug, thiserror::Error)]
pub(crate) enum TableError {
    /// The first line is not the header.
    #[error("line 1: the columns must be `unit,distance,wear`, not `{0}`")]
    Header(String),
    /// A field that is no number, or not one that is allowed.
    #[error("line {line}, column {column} ({}): `{given}`: {needed}", COLUMNS.get(column - 1).unwrap_or(&"too many"))]
    Field {
        line: u64,
        column: usize,
        given: String,
        needed: &'static str,
    },
    /// A line with too few fields or too many.
    #[error("line {line}: {got} fields, not the three of `unit,distance,wear`")]
    Fields { line: u64, got: usize },
    /// Not a table at all.
    #[error("{0}")]
    Csv(csv::Error),
    /// A header and nothing below.
    #[error("line 2: there are no readings")]
    Empty,
    /// Too long.
    #[error("line {0}: a table may have {MOST_READINGS} readings and no more")]
    TooLong(u64),
}

/// Adds the readings of a table to the units, new units behind those there are.
pub(crate) fn read(bytes: &[u8], units: &mut Vec<Unit>) -> Result<(), TableError> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        // So that a line of another length is told in words of our own.
        .flexible(true)
        .from_reader(bytes);
    let header = reader.headers()?;
    if !header.iter().eq(COLUMNS) {
        return Err(TableError::Header(
            header.iter().collect::<Vec<_>>().join(","),
        ));
    }
    let mut readings = 0;
    for record in reader.records() {
        let record = record?;
        let line = record.position().map_or(0, csv::Position::line);
        readings += 1;
        if readings > MOST_READINGS {
            return Err(TableError::TooLong(line));
        }
        if record.len() != COLUMNS.len() {
            let got = record.len();
            return Err(TableError::Fields { line, got });
        }
        let field = |column: usize| record.get(column - 1).unwrap_or_default();
        let name = field(1);
        if name.is_empty() {
            return Err(TableError::Field {
                line,
                column: 1,
                given: String::new(),
                needed: "a unit needs a name",
            });
        }
        let distance = number(field(2), line, 2, |distance| distance >= 0.0)?;
        let wear = number(field(3), line, 3, |_| true)?;
        let unit = unit(units, name);
        unit.distance.push(distance);
        unit.wear.push(wear);
    }
    if readings == 0 {
        return Err(TableError::Empty);
    }
    Ok(())
}

impl From<csv::Error> for TableError {
    fn from(error: csv::Error) -> Self {
        match error.kind() {
            csv::ErrorKind::Utf8 { pos, err } => Self::Field {
                line: pos.as_ref().map_or(1, csv::Position::line),
                column: err.field() + 1,
                given: "\u{fffd}".to_owned(),
                needed: "text in UTF-8 is needed",
            },
            _ => Self::Csv(error),
        }
    }
}

fn number(
    text: &str,
    line: u64,
    column: usize,
    allowed: impl Fn(f64) -> bool,
) -> Result<f64, TableError> {
    let wrong = |needed| TableError::Field {
        line,
        column,
        given: text.chars().take(40).collect(),
        needed,
    };
    match text.parse::<f64>() {
        Ok(number) if !number.is_finite() => Err(wrong("a finite number is needed")),
        Ok(number) if allowed(number) => Ok(number),
        Ok(_) => Err(wrong("a number at or above 0 is needed")),
        Err(_) => Err(wrong("a number is needed, with a point for the decimals")),
    }
}

fn unit<'u>(units: &'u mut Vec<Unit>, name: &str) -> &'u mut Unit {
    // Readings of a unit mostly follow each other, so it is sought from behind.
    let place = units.iter().rposition(|unit| unit.name == name);
    let place = place.unwrap_or_else(|| {
        units.push(Unit {
            name: name.to_owned(),
            ..Unit::default()
        });
        units.len() - 1
    });
    &mut units[place]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn refused(table: &str) -> String {
        read(table.as_bytes(), &mut Vec::new())
            .unwrap_err()
            .to_string()
    }

    #[test]
    fn readings_go_to_their_units() {
        let mut units = Vec::new();
        let table = "\u{feff}unit,distance,wear\r\nA, 1000 ,0.01\nB,0,-1e-3\n\"A\",2000,0.02\n";
        read(table.as_bytes(), &mut units).unwrap();
        let a = Unit {
            name: "A".to_owned(),
            distance: vec![1000.0, 2000.0],
            wear: vec![0.01, 0.02],
        };
        assert_eq!(units.len(), 2);
        assert_eq!(units[0], a);
        assert_eq!(units[1].wear, [-1e-3]);
    }

    #[test]
    fn what_is_wrong_is_said_with_its_place() {
        let header = "unit,distance,wear\n";
        for (rows, said) in [
            (
                "A,1,2\nA,x,2\n",
                "line 3, column 2 (distance): `x`: a number is needed, with a point for the decimals",
            ),
            (
                "A,-1,2\n",
                "line 2, column 2 (distance): `-1`: a number at or above 0 is needed",
            ),
            (
                "A,1,inf\n",
                "line 2, column 3 (wear): `inf`: a finite number is needed",
            ),
            (",1,2\n", "line 2, column 1 (unit): ``: a unit needs a name"),
            ("", "line 2: there are no readings"),
        ] {
            assert_eq!(refused(&format!("{header}{rows}")), said);
        }
        assert_eq!(
            refused("distance,wear\n1,2\n"),
            "line 1: the columns must be `unit,distance,wear`, not `distance,wear`"
        );
        assert_eq!(
            refused(&format!("{header}A,1\n")),
            "line 2: 2 fields, not the three of `unit,distance,wear`"
        );
        let bytes = b"unit,distance,wear\nA,1,2\nA,2,\xff\n";
        let error = read(bytes, &mut Vec::new()).unwrap_err().to_string();
        assert_eq!(
            error,
            "line 3, column 3 (wear): `\u{fffd}`: text in UTF-8 is needed"
        );
    }
}
