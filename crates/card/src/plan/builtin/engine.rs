//! The stations of one engine: the rows of names along which positions are made.

use super::{
    super::{Axis, Place, Position},
    table::{PlaceRow, Row},
};
use crate::{
    ids::{PlaceId, PositionId},
    layout::{Arrangement, Camshaft, Layout},
};

/// A row of stations, front to rear.
pub(super) struct Stations {
    axis: Axis,
    naming: Naming,
    columns: Vec<String>,
}

/// How a position's id is made of its place and its column.
enum Naming {
    /// `cyl3/ring/top`
    Numbered(&'static str),
    /// `seal/front`
    Named,
    /// `pump`
    Alone,
}

impl Stations {
    fn numbered(axis: Axis, prefix: &'static str, columns: Vec<String>) -> Self {
        Self {
            axis,
            naming: Naming::Numbered(prefix),
            columns,
        }
    }

    /// The same place at each of these stations. `weight` is that of each of its positions.
    pub(super) fn place(
        &self,
        id: &str,
        weight: f64,
        rows: impl IntoIterator<Item = Row>,
    ) -> PlaceRow {
        let position = |column: &String| Position {
            id: PositionId::fixed(&match self.naming {
                Naming::Numbered(prefix) => format!("{prefix}{column}/{id}"),
                Naming::Named => format!("{id}/{column}"),
                Naming::Alone => id.to_owned(),
            }),
            column: column.clone(),
        };
        PlaceRow {
            place: Place {
                id: PlaceId::fixed(id),
                label: None,
                axis: self.axis,
                weight,
                positions: self.columns.iter().map(position).collect(),
                looks: Vec::new(),
            },
            rows: rows.into_iter().collect(),
            full_only: false,
        }
    }
}

/// Stations with names of their own, such as front and rear.
pub(super) fn named<S: Into<String>>(columns: impl IntoIterator<Item = S>) -> Stations {
    Stations {
        axis: Axis::Each,
        naming: Naming::Named,
        columns: columns.into_iter().map(Into::into).collect(),
    }
}

/// One station only.
pub(super) fn single() -> Stations {
    Stations {
        axis: Axis::Single,
        naming: Naming::Alone,
        columns: vec![String::new()],
    }
}

/// The stations of one engine.
pub(super) struct Engine {
    pub(super) layout: Layout,
    pub(super) cylinders: Stations,
    pub(super) mains: Stations,
    /// Crank pins: one a cylinder, or one for each two cylinders of a V that share it.
    pub(super) crank_pins: Stations,
    pub(super) heads: Stations,
    pub(super) cam_bearings: Stations,
    pub(super) turbochargers: Stations,
}

fn count(most: u8) -> Vec<String> {
    (1..=most).map(|n| n.to_string()).collect()
}

impl Engine {
    /// The stations that follow from a checked layout.
    pub(super) fn of(layout: &Layout) -> Self {
        let cylinders = || {
            let names = layout.cylinder_names();
            Stations::numbered(Axis::Cylinder, "cyl", names)
        };
        let vee = layout.arrangement == Arrangement::Vee;
        let heads = match (layout.single_cylinder_heads, vee) {
            (true, _) => cylinders(),
            (false, false) => single(),
            (false, true) => {
                Stations::numbered(Axis::Each, "head", vec!["L".to_owned(), "R".to_owned()])
            }
        };
        let crank_pins = if vee {
            Stations::numbered(Axis::Each, "throw", count(layout.cylinders / 2))
        } else {
            cylinders()
        };
        Self {
            layout: layout.clone(),
            cylinders: cylinders(),
            mains: Stations::numbered(Axis::Main, "main", count(layout.mains)),
            crank_pins,
            heads,
            cam_bearings: Stations::numbered(Axis::CamBearing, "cam", cam_bearings(layout)),
            turbochargers: Stations::numbered(Axis::Each, "turbo", count(layout.turbochargers)),
        }
    }

    /// What the lobes of each cylinder work.
    pub(super) fn lobes(&self) -> Vec<&'static str> {
        [
            ("intake", true),
            ("exhaust", true),
            ("injector", self.layout.injector_lobes),
            ("brake", self.layout.brake_lobes),
        ]
        .into_iter()
        .filter_map(|(name, fitted)| fitted.then_some(name))
        .collect()
    }

    /// The rocker of each cylinder that carries the most: the injector's, or else the exhaust's, which
    /// opens against cylinder pressure.
    pub(super) fn most_loaded(&self) -> &'static str {
        if self.layout.injector_lobes {
            "injector"
        } else {
            "exhaust"
        }
    }

    /// Whether the camshaft lies in the block, with followers and pushrods.
    pub(super) fn in_block(&self) -> bool {
        self.layout.camshaft == Camshaft::InBlock
    }

    /// What tells the camshafts of one bank apart: nothing where there is one.
    pub(super) fn camshafts(&self) -> &'static [&'static str] {
        match self.layout.camshaft {
            Camshaft::Overhead | Camshaft::InBlock => &[""],
            Camshaft::DoubleOverhead => &["/intake", "/exhaust"],
        }
    }

    /// The camshaft gears, one on each camshaft.
    pub(super) fn cam_gears(&self) -> Vec<String> {
        let banks: &[&str] = match (self.layout.arrangement, self.in_block()) {
            (Arrangement::Vee, false) => &["_L", "_R"],
            _ => &[""],
        };
        banks
            .iter()
            .flat_map(|bank| {
                self.camshafts()
                    .iter()
                    .map(move |shaft| format!("cam{}{bank}", shaft.replace('/', "_")))
            })
            .collect()
    }
}

/// The bearings of a camshaft: one beside every cylinder. A camshaft in the block of a V serves both
/// banks and has one for each pair.
fn cam_bearings(layout: &Layout) -> Vec<String> {
    let along = layout.cylinders / layout.banks() + 1;
    match (layout.arrangement, layout.camshaft) {
        (Arrangement::Vee, Camshaft::Overhead | Camshaft::DoubleOverhead) => ["L", "R"]
            .iter()
            .flat_map(|bank| (1..=along).map(move |n| format!("{bank}{n}")))
            .collect(),
        _ => count(along),
    }
}
