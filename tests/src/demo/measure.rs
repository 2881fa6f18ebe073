//! The day with the gauges: what was read, with what, typed how.

use rand::RngExt;
use ringland_card::{
    About, Body, Cause, EntryId, Look, SpotId,
    gauging::{Decimal, DecimalError, Makes, Material, Reading, Spot, Unit, Wears},
    plan::Leaf,
    scale::{GaugedScale, Scale},
};

use super::{
    gauges::Tool,
    parts::Part,
    scatter,
    session::{Bench, SECOND_RATER},
    sheet::sheet,
};

/// The share of spots that are read three times over.
const REPEATED: f64 = 0.04;
/// How far a new bore or journal is out of its nominal shape, micrometres.
const NEW_SHAPE: f64 = 1.2;
/// A cam's base circle, which a lobe's lift is read above, micrometres.
const BASE_CIRCLE: f64 = 62_040.0;

/// Shares of the wear by station and axis: a liner wears most where the top ring turns, at thrust.
const LINER: [[f64; 2]; 3] = [[1.0, 0.62], [0.48, 0.36], [0.3, 0.24]];
/// A journal, on the axis that carries and the one across.
const JOURNAL: [[f64; 2]; 2] = [[1.0, 0.6], [0.9, 0.55]];
/// A bush.
const BUSH: [[f64; 2]; 1] = [[1.0, 0.6]];

impl Bench<'_> {
    /// Reads what can be read; another rater than the first reads a few again.
    pub(super) fn measure(
        &mut self,
        leaves: &[Leaf],
        parts: &[Option<Part>],
    ) -> Result<(), DecimalError> {
        let gauging = &self.engine.gauging;
        let late = if self.first() { 0 } else { SECOND_RATER };
        self.now = self.now.max(gauging.day.second() + late);
        if self.first() {
            self.lay_out(leaves, parts)?;
        }
        for (leaf, part) in leaves.iter().zip(parts) {
            let position = leaf.position(self.plan).id.as_str();
            if gauging.stops_at == Some(position) {
                break;
            }
            let reads = self.first() || gauging.again.contains(&position);
            if let (Some(part), true) = (part, reads) {
                self.part(leaf, part)?;
            }
        }
        Ok(())
    }

    /// What stands before the first reading: the gauges, the sheet, and what was weighed when the engine was built.
    fn lay_out(&mut self, leaves: &[Leaf], parts: &[Option<Part>]) -> Result<(), DecimalError> {
        let mut known: Vec<&str> = Vec::new();
        for (leaf, part) in leaves.iter().zip(parts) {
            let Some(part) = part else { continue };
            let tool = self.tool(leaf, part);
            if !known.contains(&tool.name)
                && let Some(gauge) = tool.gauge()?
            {
                known.push(tool.name);
                self.pass(20, 60);
                let gauge = Box::new(gauge);
                self.write(Body::Gauge { gauge }, None);
            }
        }
        self.now += 10 - self.now % 10 + 180;
        let sheet = Box::new(sheet(self.engine.model, self.plan)?);
        self.write(Body::Sizes { sheet }, None);
        for (leaf, part) in leaves.iter().zip(parts) {
            if let Some(part) = part
                && part.kind.tool.unit == Unit::G
                && self.engine.gauging.stops_at.is_none()
            {
                self.now += 10;
                self.read(leaf, part, &Spot::default(), part.new, true)?;
            }
        }
        Ok(())
    }

    fn tool(&self, leaf: &Leaf, part: &Part) -> &'static Tool {
        let at = leaf.at(self.plan);
        let (position, look) = (at.position.as_str(), at.characteristic.as_str());
        let mut instead = self.engine.gauging.with.iter();
        instead
            .find(|instead| instead.hits(position, look))
            .map_or(part.kind.tool, |instead| instead.tool)
    }

    /// One part: every spot of its grid, or why there is nothing to read, and what is answerable.
    fn part(&mut self, leaf: &Leaf, part: &Part) -> Result<(), DecimalError> {
        let at = leaf.at(self.plan);
        let (position, look) = (at.position.as_str(), at.characteristic.as_str());
        let unread = self.engine.gauging.unread.iter();
        let unseen = self.engine.unseen.iter().chain(unread);
        if let Some(unseen) = { unseen }.find(|unseen| unseen.hits(position, look)) {
            self.pass(3, 8);
            self.rating(&at, Look::NotInspected(unseen.reason), None);
            return Ok(());
        }
        let Some(Scale::Gauged(scale)) = self.plan.scale(&leaf.characteristic(self.plan).scale)
        else {
            return Ok(());
        };
        self.now += 20;
        for (spot, size) in spots(scale, part) {
            self.now += 10;
            let rough = if part.kind.tool.unit == Unit::Mm && spot.axis.is_some() {
                NEW_SHAPE * scatter(&mut self.looks)
            } else {
                0.0
            };
            self.read(leaf, part, &spot, size + rough, false)?;
        }
        if self.first()
            && let Some(cause) = self.answerable(leaf)
        {
            self.pass(4, 10);
            let about = About {
                position: at.position,
                characteristic: Some(at.characteristic),
            };
            self.write(Body::Cause { about, cause }, None);
        }
        Ok(())
    }

    /// What is answerable for a size: what is for its surface, or for the wear itself.
    fn answerable(&self, leaf: &Leaf) -> Option<Cause> {
        let at = leaf.at(self.plan);
        let position = at.position.as_str();
        let look = leaf.characteristic(self.plan);
        let surface = look.same_surface.as_ref();
        let of = |findings: &[super::fleet::Finding], look: &str| {
            let mut hits = findings.iter().filter(|f| f.hits(position, look));
            hits.find_map(|finding| finding.cause)
        };
        of(self.engine.gauging.worn, look.id.as_str())
            .or_else(|| of(self.engine.findings, surface?.as_str()))
    }

    /// One spot, typed once, thrice, or wrong and then right.
    fn read(
        &mut self,
        leaf: &Leaf,
        part: &Part,
        spot: &Spot,
        size: f64,
        as_new: bool,
    ) -> Result<(), DecimalError> {
        let tool = self.tool(leaf, part);
        let (shown, part_c) = self.as_shown(leaf, tool, size);
        let times = if !as_new && self.looks.random::<f64>() < REPEATED {
            3
        } else {
            1
        };
        let typed: Vec<String> = (0..times)
            .map(|_| tool.typed(shown + tool.scatter * scatter(&mut self.looks)))
            .collect();
        let mut reading = Reading {
            at: leaf.at(self.plan),
            spot: spot.clone(),
            as_new,
            unit: tool.unit,
            values: Vec::new(),
            gauge: tool.id(),
            part_c,
        };
        let wrong = self.slips_here(&reading);
        let mut supersedes: Option<EntryId> = None;
        if wrong {
            reading.values = vec![Decimal::new(&point_off(&typed[0]))?];
            supersedes = Some(self.write_reading(&reading, None));
            self.pass(20, 70);
        }
        let figures = typed.iter().map(|text| Decimal::new(text));
        reading.values = figures.collect::<Result<_, _>>()?;
        self.write_reading(&reading, supersedes);
        Ok(())
    }

    fn write_reading(&mut self, reading: &Reading, supersedes: Option<EntryId>) -> EntryId {
        let reading = Box::new(reading.clone());
        self.write(Body::Reading { reading }, supersedes)
    }

    /// Whether the point of this reading slips: the first rater's, at the first spot of the part.
    fn slips_here(&self, reading: &Reading) -> bool {
        let at = (
            reading.at.position.as_str(),
            reading.at.characteristic.as_str(),
        );
        let again = self.written.iter().any(
            |written| matches!(&written.body, Body::Reading { reading: before } if before.at == reading.at),
        );
        self.first() && !again && self.engine.gauging.slips.contains(&at)
    }

    /// What a gauge shows of a size as warm as it is, and how warm that is where it matters.
    fn as_shown(&self, leaf: &Leaf, tool: &Tool, size: f64) -> (f64, Option<f64>) {
        let scale = self.plan.scale(&leaf.characteristic(self.plan).scale);
        let Some(Scale::Gauged(GaugedScale {
            material: Some(part),
            ..
        })) = scale
        else {
            return (size, None);
        };
        let celsius = self.engine.gauging.part_c;
        let grows = expansion(*part) - tool.material.map_or(0.0, expansion);
        (size * (1.0 + grows * (celsius - 20.0)), Some(celsius))
    }
}

/// Every spot of a part's grid, and what it measures there at 20 °C.
fn spots(scale: &GaugedScale, part: &Part) -> Vec<(Spot, f64)> {
    let sign = match scale.wears {
        Wears::Larger => 1.0,
        // A liner's flange beds into the block.
        Wears::Smaller | Wears::Either => -1.0,
    };
    if scale.makes == Makes::Difference {
        let sizes = [BASE_CIRCLE + part.new + sign * part.worn, BASE_CIRCLE];
        let stations = scale.stations.iter().zip(sizes);
        return stations
            .map(|(station, size)| (spot(Some(station), None), size))
            .collect();
    }
    let mut spots = Vec::new();
    for (row, station) in either(&scale.stations).enumerate() {
        for (column, axis) in either(&scale.axes).enumerate() {
            let share = share(scale.stations.len(), row, column);
            let size = part.new + sign * share * part.worn;
            spots.push((spot(station, axis), size));
        }
    }
    spots
}

/// A grid's names along one way; one that has none where the grid does not go that way.
fn either(names: &[SpotId]) -> impl Iterator<Item = Option<&SpotId>> {
    let none = names.is_empty().then_some(None);
    names.iter().map(Some).chain(none)
}

fn share(stations: usize, row: usize, column: usize) -> f64 {
    let shares: &[[f64; 2]] = match stations {
        3 => &LINER,
        2 => &JOURNAL,
        _ => &BUSH,
    };
    shares[row % shares.len()][column % 2]
}

fn spot(station: Option<&SpotId>, axis: Option<&SpotId>) -> Spot {
    Spot {
        station: station.cloned(),
        axis: axis.cloned(),
    }
}

/// Growth per kelvin; what the card's own correction takes off again.
fn expansion(material: Material) -> f64 {
    match material {
        Material::Steel => 11.5e-6,
        Material::Iron => 10.5e-6,
        Material::Aluminium => 20.0e-6,
    }
}

/// The same digits with the point one place to the left.
fn point_off(typed: &str) -> String {
    let Some((whole, fraction)) = typed.split_once('.') else {
        return typed.to_owned();
    };
    let (head, last) = whole.split_at(whole.len() - 1);
    let head = if head.is_empty() { "0" } else { head };
    format!("{head}.{last}{fraction}")
}
