//! The invented gauges of the invented workshops.

use ringland_card::{
    GaugeId, Timestamp,
    gauging::{Decimal, DecimalError, Gauge, Material, Unit},
};

use super::session::{NOVEMBER, milliseconds};

/// What a size is read with, and how it is typed.
pub(super) struct Tool {
    /// What it is called; empty where it is no gauge.
    pub(super) name: &'static str,
    number: u8,
    pub(super) unit: Unit,
    /// Digits after the point.
    pub(super) places: u32,
    /// Micrometres or milligrams in one of the last digit.
    pub(super) digit: f64,
    /// The step, in last digits.
    pub(super) step: i64,
    resolution: &'static str,
    expanded: &'static str,
    pub(super) material: Option<Material>,
    /// How far its readings scatter, micrometres or milligrams.
    pub(super) scatter: f64,
}

pub(super) static BORE: Tool = Tool {
    name: "Bore gauge 3",
    number: 3,
    unit: Unit::Mm,
    places: 3,
    digit: 1.0,
    step: 1,
    resolution: "0.001",
    expanded: "0.004",
    material: Some(Material::Steel),
    scatter: 1.2,
};

pub(super) static MICROMETER: Tool = Tool {
    name: "Micrometers 2",
    number: 2,
    unit: Unit::Mm,
    places: 3,
    digit: 1.0,
    step: 1,
    resolution: "0.001",
    expanded: "0.003",
    material: Some(Material::Steel),
    scatter: 0.9,
};

/// The crankshaft shop's, older than the rest.
pub(super) static INCH_MICROMETER: Tool = Tool {
    name: "Micrometer 7, inches",
    number: 7,
    unit: Unit::In,
    places: 4,
    digit: 2.54,
    step: 1,
    resolution: "0.0001",
    expanded: "0.0001",
    material: Some(Material::Steel),
    scatter: 1.2,
};

pub(super) static DIAL: Tool = Tool {
    name: "Dial gauge 1",
    number: 1,
    unit: Unit::Mm,
    places: 2,
    digit: 10.0,
    step: 1,
    resolution: "0.01",
    expanded: "0.008",
    material: None,
    scatter: 3.0,
};

pub(super) static FEELER: Tool = Tool {
    name: "Feeler gauges 4, steps of 0.05",
    number: 4,
    unit: Unit::Mm,
    places: 2,
    digit: 10.0,
    step: 5,
    resolution: "0.05",
    expanded: "0.008",
    material: None,
    scatter: 4.0,
};

pub(super) static FINE_FEELER: Tool = Tool {
    name: "Feeler gauges 6, steps of 0.01",
    number: 6,
    unit: Unit::Mm,
    places: 2,
    digit: 10.0,
    step: 1,
    resolution: "0.01",
    expanded: "0.006",
    material: None,
    scatter: 2.0,
};

pub(super) static SCALES: Tool = Tool {
    name: "Scales 5",
    number: 5,
    unit: Unit::G,
    places: 3,
    digit: 1.0,
    step: 1,
    resolution: "0.001",
    expanded: "0.002",
    material: None,
    scatter: 0.8,
};

/// Plastic strip, which is squeezed flat and held against the scale on its sleeve: no gauge of anybody's list.
pub(super) static STRIP: Tool = Tool {
    name: "",
    number: 0,
    unit: Unit::Mm,
    places: 2,
    digit: 10.0,
    step: 1,
    resolution: "0.01",
    expanded: "0",
    material: None,
    scatter: 4.0,
};

/// Days from a calibration to November, the same for every gauge but for its number.
const CALIBRATED_BEFORE: i64 = 60;

impl Tool {
    /// Its id, the same on every card; none for what is no gauge.
    pub(super) fn id(&self) -> Option<GaugeId> {
        (self.number > 0).then(|| GaugeId::v7(milliseconds(NOVEMBER), [self.number; 10]))
    }

    /// The gauge as a card has it.
    pub(super) fn gauge(&self) -> Result<Option<Gauge>, DecimalError> {
        let Some(id) = self.id() else {
            return Ok(None);
        };
        let before = CALIBRATED_BEFORE + 10 * i64::from(self.number);
        Ok(Some(Gauge {
            id,
            name: self.name.to_owned(),
            unit: self.unit,
            resolution: Decimal::new(self.resolution)?,
            expanded: Some(Decimal::new(self.expanded)?),
            k: 2.0,
            calibrated: Timestamp::from_second(NOVEMBER - before * 86_400),
            material: self.material,
        }))
    }

    /// The unit that a sheet gives such sizes in.
    pub(super) fn sheet_unit(&self) -> Unit {
        if self.unit == Unit::G {
            Unit::G
        } else {
            Unit::Mm
        }
    }

    /// What it shows of a size, as it is typed.
    pub(super) fn typed(&self, size: f64) -> String {
        let steps = size / self.digit / self.step as f64;
        #[expect(
            clippy::cast_possible_truncation,
            reason = "the model's figures are far below 2^53"
        )]
        let steps = steps.round() as i64;
        fixed(steps * self.step, self.places)
    }
}

/// A whole number of last digits with its point.
pub(super) fn fixed(digits: i64, places: u32) -> String {
    let one = 10i64.pow(places);
    let sign = if digits < 0 { "-" } else { "" };
    let (whole, rest) = (digits.abs() / one, digits.abs() % one);
    format!("{sign}{whole}.{rest:0width$}", width = places as usize)
}
