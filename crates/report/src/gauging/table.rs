//! Tables of readings from outside: pasted from a spreadsheet, or out of a CSV file. Nothing is taken from a
//! line that is not understood, and each such line is named.

use ringland_card::{gauging::Spot, ids::SpotId, plan::LeafId};

use super::{Gauger, Kind};
use crate::format::{TypedReading, parse_reading};

/// The most lines that are read.
pub const MOST_LINES: usize = 5_000;

/// What a column holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Column {
    /// Nothing that is wanted.
    #[default]
    Ignore,
    /// The position: its id, its name or its column on the map.
    Position,
    /// What is measured; the kind on the screen where there is no such column.
    Look,
    /// The height or station.
    Station,
    /// The axis.
    Axis,
    /// The figure.
    Value,
}

impl Column {
    /// Every kind of column, in the order in which they are offered.
    pub const ALL: [Self; 6] = [
        Self::Ignore,
        Self::Position,
        Self::Look,
        Self::Station,
        Self::Axis,
        Self::Value,
    ];
}

/// One reading of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// The leaf.
    pub leaf: LeafId,
    /// Where on its grid.
    pub spot: Spot,
    /// What stood there.
    pub reading: TypedReading,
}

/// What a table came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Import {
    /// The readings.
    pub taken: Vec<Imported>,
    /// The lines that were not understood, from 1, and why, in words.
    pub refused: Vec<(usize, String)>,
}

/// The cells of a table, line by line; the sign that parts them is found out.
pub fn cells(text: &str) -> Vec<Vec<String>> {
    let first = text.lines().next().unwrap_or_default();
    // A decimal comma must not part a figure in two where something else parts the cells.
    let parts = if first.contains('\t') {
        b'\t'
    } else if first.contains(';') {
        b';'
    } else {
        b','
    };
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(parts)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let records = reader.records().take(MOST_LINES);
    records
        .filter_map(Result::ok)
        .map(|record| record.iter().map(str::to_owned).collect())
        .collect()
}

/// What the columns look like, by the names in the first line.
pub fn guess(gauger: &Gauger<'_>, first: &[String]) -> Vec<Column> {
    let g = &gauger.words.gauging;
    let names = [
        (Column::Position, ["position", g.column_position]),
        (Column::Look, ["characteristic", g.column_look]),
        (Column::Station, ["station", g.column_station]),
        (Column::Axis, ["axis", g.column_axis]),
        (Column::Value, ["value", g.column_value]),
    ];
    let of = |cell: &String| {
        let cell = cell.to_lowercase();
        let mut known = names.iter();
        let found = known.find(|(_, names)| names.iter().any(|name| name.to_lowercase() == cell));
        found.map_or(Column::Ignore, |(column, _)| *column)
    };
    first.iter().map(of).collect()
}

/// Reads the lines of a table by their columns; `skip` leaves the first line out.
pub fn import(
    gauger: &Gauger<'_>,
    kind: Kind,
    lines: &[Vec<String>],
    columns: &[Column],
    skip: bool,
) -> Import {
    let mut import = Import::default();
    let lines = lines.iter().enumerate().skip(usize::from(skip));
    for (number, line) in lines {
        if line.iter().all(String::is_empty) {
            continue;
        }
        match one(gauger, kind, line, columns) {
            Ok(reading) => import.taken.push(reading),
            Err(why) => import.refused.push((number + 1, why)),
        }
    }
    import
}

fn one(
    gauger: &Gauger<'_>,
    kind: Kind,
    line: &[String],
    columns: &[Column],
) -> Result<Imported, String> {
    let words = gauger.words;
    let cell = |wanted: Column| {
        let place = columns.iter().position(|column| *column == wanted)?;
        line.get(place)
            .map(String::as_str)
            .filter(|cell| !cell.is_empty())
    };
    let kinds = match cell(Column::Look) {
        None => vec![kind],
        Some(look) => {
            let kinds = gauger.kinds();
            let named: Vec<Kind> = { kinds.into_iter() }
                .filter(|kind| gauger.is_called(*kind, look))
                .collect();
            if named.is_empty() {
                return Err(words.gauging.import_no_look(look));
            }
            named
        }
    };
    let position = cell(Column::Position).unwrap_or_default();
    let at = kinds.iter().find_map(|kind| {
        let mut leaves = kind.leaves();
        let leaf = leaves.find(|leaf| gauger.is_at(*leaf, position))?;
        Some((*kind, leaf))
    });
    let Some((kind, leaf)) = at else {
        return Err(words.gauging.import_no_position(position));
    };
    let spot = spot(gauger, kind, cell(Column::Station), cell(Column::Axis))?;
    let figure = cell(Column::Value).unwrap_or_default();
    let reading = parse_reading(figure).map_err(|error| words.number_error(&error))?;
    Ok(Imported {
        leaf,
        spot,
        reading,
    })
}

fn spot(
    gauger: &Gauger<'_>,
    kind: Kind,
    station: Option<&str>,
    axis: Option<&str>,
) -> Result<Spot, String> {
    let words = gauger.words;
    let spots = gauger.spots(kind);
    let is = |id: &Option<SpotId>, given: Option<&str>| match (id, given) {
        (None, _) => true,
        (Some(_), None) => false,
        (Some(id), Some(given)) => {
            let given = given.to_lowercase();
            id.as_str() == given || words.spot_name(id).to_lowercase() == given
        }
    };
    let mut fits = spots.into_iter();
    fits.find(|spot| is(&spot.station, station) && is(&spot.axis, axis))
        .ok_or_else(|| {
            let given = [station, axis].into_iter().flatten();
            words
                .gauging
                .import_no_spot(&given.collect::<Vec<_>>().join(", "))
        })
}

impl Gauger<'_> {
    /// Whether a kind is called so: by its id or its name.
    fn is_called(&self, kind: Kind, name: &str) -> bool {
        let name = name.to_lowercase();
        self.leaf(kind.first).is_some_and(|(_, place, look)| {
            let names = [
                look.id.as_str().to_owned(),
                self.words.characteristic_name(look).to_lowercase(),
                self.words.row_name(place, look).to_lowercase(),
                format!("{}/{}", place.id, look.id),
            ];
            names.contains(&name)
        })
    }

    /// Whether a leaf's position is called so: by its id, its name or its column.
    fn is_at(&self, leaf: LeafId, name: &str) -> bool {
        let name = name.to_lowercase();
        self.leaf(leaf).is_some_and(|(at, place, _)| {
            let position = &place.positions[at.position];
            let names = [
                position.id.as_str().to_lowercase(),
                position.column.to_lowercase(),
                self.words
                    .column(place.axis, &position.column)
                    .to_lowercase(),
                self.words.position_name(place, position).to_lowercase(),
            ];
            names.contains(&name)
        })
    }
}
