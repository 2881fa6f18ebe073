//! What the readings of one part say: its size, shape and wear, each with the budget of its uncertainty,
//! held against the sizes of the card's sheet.
//!
//! Lengths are metres, masses kilograms. What the sheet does not know is left out; nothing is guessed.

use ringland_card::{
    Standing,
    entry::{Body, Entry, FactField},
    gauging::{Decimal, Gauge, Makes, Material, Quantity, Reading, Size, SizeField, Spot, Wears},
    ids::{EntryId, SpotId},
    plan::LeafId,
    scale::{GaugedScale, Scale},
};
use ringland_stats::{
    StatsError,
    confidence::{Confidence, Dof},
    conformity::{Conformity, Tolerance, Verdict, conformity},
    uncertainty::{Budget, Component, Standard, combine, repeats},
};
use uom::si::{
    f64::{Length, TemperatureInterval, ThermodynamicTemperature},
    length::meter,
    temperature_interval::kelvin,
    thermodynamic_temperature::degree_celsius,
};

use super::{
    as_new::unread_new,
    rate::{Basis, BreakIn, Exposure, wear_rate},
    reading::{AsNew, Gauged, GaugingError, Measured, Range, Source, part},
    remaining::Position,
    share::wear_share,
    temperature::{Expansion, Thermometer, Warmth, at_20_c},
};

/// The confidence of every verdict here. Source: the default of ISO 14253-1:2017, from memory.
pub const CONFIDENCE: Confidence = Confidence::P95;

/// How many times the expanded uncertainty must go into the wear allowance; common practice, no source.
pub const FINE_ENOUGH: f64 = 4.0;

/// How well a thermometer on the bench is known, half-width in K: common practice, no source.
const THERMOMETER_K: f64 = 1.0;

/// A figure in the SI unit of its quantity, with its budget.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The figure.
    pub si: f64,
    /// What its uncertainty is made of.
    pub budget: Budget<Source>,
}

impl Figure {
    fn new(si: f64, components: Vec<Component<Source>>) -> Result<Self, GaugingError> {
        if !si.is_finite() {
            return Err(StatsError::NotFinite {
                place: 0,
                given: si,
            }
            .into());
        }
        Ok(Self {
            si,
            budget: combine(components, &[])?,
        })
    }

    /// Its standard uncertainty. Without effective degrees of freedom they count as 1, as few as can be.
    pub fn standard(&self) -> Standard {
        Standard {
            u: self.budget.u,
            dof: self.budget.dof.unwrap_or(Dof::ONE),
        }
    }

    fn length(&self) -> Measured {
        let Standard { u, dof } = self.standard();
        Measured {
            value: Length::new::<meter>(self.si),
            u: Length::new::<meter>(u),
            dof,
        }
    }

    /// The same components, each with another sensitivity.
    fn components(&self, factor: f64) -> Vec<Component<Source>> {
        let rows = self.budget.rows.iter();
        rows.map(|row| Component {
            sensitivity: row.component.sensitivity * factor,
            ..row.component
        })
        .collect()
    }
}

impl From<Gauged> for Figure {
    fn from(gauged: Gauged) -> Self {
        Self {
            si: gauged.value.get::<meter>(),
            budget: gauged.budget,
        }
    }
}

/// What all raters read on one spot.
#[derive(Clone, Debug, PartialEq)]
pub struct SpotFigure {
    /// Where on the grid.
    pub spot: Spot,
    /// What it measures.
    pub figure: Figure,
    /// The entries it comes from.
    pub entries: Vec<EntryId>,
}

/// A figure held against a limit.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The limit's field on the size sheet.
    pub field: SizeField,
    /// The limit.
    pub limit: f64,
    /// The verdict, and the probability that it keeps within the limit.
    pub conformity: Conformity,
}

/// A shape, which needs several readings.
#[derive(Clone, Debug, PartialEq)]
pub struct ShapeFigure {
    /// The height that is furthest out of round, or the axis that tapers most.
    pub at: Option<SpotId>,
    /// How far.
    pub figure: Figure,
    /// Against its limit, where the sheet has one.
    pub held: Option<Held>,
}

/// Something that a reader must know of a finding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Note {
    /// A reading names no gauge: only its last digit speaks for it.
    NoGauge,
    /// A gauge has no calibration: what it is off by is not in the uncertainty.
    NotCalibrated,
    /// Warmth is not corrected for: nobody read it, or the material is not known.
    NotCorrected,
    /// The sheet does not say what a new part measures, and nobody read it new.
    NoNewSize,
    /// The sheet has no wear limit.
    NoLimit,
    /// The grid has spots that were not read.
    Unread {
        /// How many.
        spots: usize,
    },
    /// As it went in the part was read on less of its grid than as it came out: that is no size as new.
    NewUnread {
        /// How many spots are missing.
        spots: usize,
    },
    /// The gauge is too coarse for the allowance.
    TooCoarse {
        /// The standard uncertainty that would be enough.
        enough: f64,
    },
}

/// Where the size as new comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NewFrom {
    /// It was measured before it ran, on as much of its grid as afterwards.
    Measured,
    /// It was anywhere in the sheet's range.
    Range {
        /// The least.
        low: f64,
        /// The most.
        high: f64,
    },
}

/// The size as new.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NewSize {
    /// Its best value.
    pub si: f64,
    /// Its standard uncertainty.
    pub standard: Standard,
    /// Where it comes from.
    pub from: NewFrom,
}

/// A wear rate: SI units of wear for each SI unit of the basis.
#[derive(Clone, Debug, PartialEq)]
pub struct Rate {
    /// What the run was counted in.
    pub basis: Basis,
    /// How fast.
    pub figure: Figure,
}

/// Everything that the readings of one leaf say, but for what draws are needed for.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The leaf.
    pub leaf: LeafId,
    /// What kind of quantity it is.
    pub quantity: Quantity,
    /// By spot, in the order of the grid.
    pub spots: Vec<SpotFigure>,
    /// The size that counts: the furthest worn, or the difference.
    pub size: Figure,
    /// Where it was read.
    pub at: Spot,
    /// The height that is furthest out of round.
    pub out_of_round: Option<ShapeFigure>,
    /// The axis that tapers most.
    pub taper: Option<ShapeFigure>,
    /// The size as new.
    pub new: Option<NewSize>,
    /// The size against its wear limits.
    pub held: Vec<Held>,
    /// The wear, above 0 towards the limit.
    pub wear: Option<Figure>,
    /// The share of the wear allowance that is used; no unit.
    pub share: Option<Figure>,
    /// How fast it wears, by what the card says of its run.
    pub rates: Vec<Rate>,
    /// What remaining distance is worked out from, by the run's distance, time or fuel, the first known.
    pub position: Option<Position>,
    /// What must be known of it.
    pub notes: Vec<Note>,
}

impl Finding {
    /// Every limit that was held against it.
    pub fn limits(&self) -> impl Iterator<Item = &Held> {
        let shapes = [&self.out_of_round, &self.taper].into_iter().flatten();
        self.held
            .iter()
            .chain(shapes.filter_map(|shape| shape.held.as_ref()))
    }

    /// The verdict on all its limits: beyond where one is, within where all are; none without a limit.
    pub fn verdict(&self) -> Option<Verdict> {
        Verdict::worst(self.limits().map(|held| held.conformity.verdict))
    }
}

/// Works out what the readings of a leaf say; nothing where it is not gauged, not read, or where its figures
/// are beyond any part's.
pub fn finding(standing: &Standing<'_>, leaf: LeafId) -> Option<Finding> {
    let place = standing.index.leaf(leaf)?;
    let look = place.characteristic(standing.plan);
    let Some(Scale::Gauged(scale)) = standing.plan.scale(&look.scale) else {
        return None;
    };
    let bench = Bench {
        standing,
        leaf,
        scale,
        size: standing.size_sheet().and_then(|sheet| {
            sheet.size_in(scale.quantity, &place.place(standing.plan).id, &look.id)
        }),
    };
    bench.finding().ok().flatten()
}

/// Whether a measured leaf takes part in the score: the card knows what the part measured when new, and
/// where its wear limit is. Whether it has been read does not matter, but for how much of it was read new.
pub fn counts(standing: &Standing<'_>, leaf: LeafId) -> bool {
    let Some(place) = standing.index.leaf(leaf) else {
        return false;
    };
    let look = place.characteristic(standing.plan);
    let (Some(Scale::Gauged(scale)), Some(sheet)) =
        (standing.plan.scale(&look.scale), standing.size_sheet())
    else {
        return false;
    };
    let place = &place.place(standing.plan).id;
    let Some(size) = sheet.size_in(Quantity::Length, place, &look.id) else {
        return false;
    };
    let has = |field| size.field(field).is_some();
    let limited = match scale.wears {
        Wears::Larger => has(SizeField::LimitHigh),
        Wears::Smaller => has(SizeField::LimitLow),
        Wears::Either => has(SizeField::LimitHigh) && has(SizeField::LimitLow),
    };
    let read_new = || unread_new(standing, leaf, scale) == Some(0);
    scale.quantity == Quantity::Length && limited && (has(SizeField::NewLow) || read_new())
}

/// Works out every leaf, in plan order. Cost: linear in the leaves and the readings.
pub fn findings(standing: &Standing<'_>) -> Vec<Option<Finding>> {
    (0..standing.index.leaves().len())
        .map(|leaf| finding(standing, LeafId(leaf)))
        .collect()
}

/// One part on the bench, with all that is known of it.
struct Bench<'s, 'c> {
    standing: &'s Standing<'c>,
    leaf: LeafId,
    scale: &'c GaugedScale,
    size: Option<&'c Size>,
}

impl Bench<'_, '_> {
    fn finding(&self) -> Result<Option<Finding>, GaugingError> {
        let mut notes = Vec::new();
        let spots = self.spots(false, &mut notes)?;
        let Some((at, size)) = self.made(&spots, &mut notes)? else {
            return Ok(None);
        };
        let asked = self.scale.spots();
        if spots.len() < asked {
            notes.push(Note::Unread {
                spots: asked - spots.len(),
            });
        }
        let new = self.new_size(&mut notes)?;
        let mut finding = Finding {
            leaf: self.leaf,
            quantity: self.scale.quantity,
            out_of_round: self.out_of_round(&spots)?,
            taper: self.taper(&spots)?,
            held: self.held(&size)?,
            spots,
            size,
            at,
            new,
            wear: None,
            share: None,
            rates: Vec::new(),
            position: None,
            notes,
        };
        match new {
            Some(new) => self.worn(&mut finding, new)?,
            None => finding.notes.push(Note::NoNewSize),
        }
        if finding.held.is_empty() && self.scale.quantity == Quantity::Length {
            finding.notes.push(Note::NoLimit);
        }
        Ok(Some(finding))
    }

    fn entries(&self, as_new: bool) -> Vec<(&Spot, &Entry, &Reading)> {
        let readings = self.standing.readings[self.leaf.0].iter();
        readings
            .filter(|((new, ..), _)| *new == as_new)
            .filter_map(|((_, spot, _), entry)| match &entry.body {
                Body::Reading { reading } => Some((*spot, *entry, &**reading)),
                _ => None,
            })
            .collect()
    }

    /// What was read, by spot in the order of the grid.
    fn spots(&self, as_new: bool, notes: &mut Vec<Note>) -> Result<Vec<SpotFigure>, GaugingError> {
        let entries = self.entries(as_new);
        let mut spots: Vec<&Spot> = entries.iter().map(|(spot, ..)| *spot).collect();
        spots.dedup();
        spots.sort_by_key(|spot| self.place_of(spot));
        spots
            .into_iter()
            .map(|spot| {
                let here = entries.iter().filter(|(at, ..)| *at == spot);
                let here: Vec<(&Entry, &Reading)> = here.map(|(_, e, r)| (*e, *r)).collect();
                Ok(SpotFigure {
                    spot: spot.clone(),
                    figure: self.read(&here, notes)?,
                    entries: here.iter().map(|(entry, _)| entry.id).collect(),
                })
            })
            .collect()
    }

    /// Where a spot stands on the grid; heights beyond the plan's come after them.
    fn place_of(&self, spot: &Spot) -> (usize, usize) {
        let place = |of: Option<&SpotId>, grid: &[SpotId]| {
            of.and_then(|of| grid.iter().position(|known| known == of))
        };
        let station = place(spot.station.as_ref(), &self.scale.stations);
        let axis = place(spot.axis.as_ref(), &self.scale.axes);
        (station.unwrap_or(usize::MAX), axis.unwrap_or(0))
    }

    /// What one spot measures at 20 °C.
    ///
    /// All figures of all raters count as repeats of one reading: their mean, with the scatter of that mean
    /// (type A) where there are two or more; half a step of the gauge either way (rectangular); and what the
    /// gauge is calibrated to.
    fn read(
        &self,
        here: &[(&Entry, &Reading)],
        notes: &mut Vec<Note>,
    ) -> Result<Figure, GaugingError> {
        let figures: Vec<f64> = here.iter().flat_map(|(_, reading)| reading.si()).collect();
        let mut components = Vec::new();
        let mean = if figures.len() > 1 {
            let repeats = repeats(&figures)?;
            components.push(part(Source::Repeats, repeats.standard, 1.0));
            repeats.mean
        } else {
            figures.first().copied().unwrap_or(f64::NAN)
        };
        let gauges: Vec<Option<&Gauge>> = here
            .iter()
            .map(|(_, reading)| self.gauge_of(reading))
            .collect();
        let steps = here.iter().zip(&gauges).map(|((_, reading), gauge)| {
            gauge.map_or_else(|| last_digit(reading), Gauge::resolution_si)
        });
        let step = steps.fold(0.0, f64::max);
        components.push(part(
            Source::Resolution,
            Standard::rectangular(step / 2.0),
            1.0,
        ));
        if gauges.iter().any(Option::is_none) {
            note(notes, Note::NoGauge);
        }
        let known = gauges.iter().flatten();
        let calibrations: Vec<Option<f64>> = known.map(|gauge| gauge.calibration_si()).collect();
        if calibrations.iter().any(Option::is_none) {
            note(notes, Note::NotCalibrated);
        }
        if let Some(u) = calibrations.into_iter().flatten().reduce(f64::max) {
            components.push(part(Source::Calibration, Standard::known(u), 1.0));
        }
        self.at_reference(
            mean,
            components,
            here,
            gauges.first().copied().flatten(),
            notes,
        )
    }

    /// The gauge that a reading names; none that reads another quantity, which somebody else's card may bring.
    fn gauge_of(&self, reading: &Reading) -> Option<&Gauge> {
        let gauge = self.standing.gauge(reading.gauge?)?;
        (gauge.unit.quantity() == self.scale.quantity).then_some(gauge)
    }

    /// The material that warmth is corrected for: a mass does not grow with it.
    fn material(&self) -> Option<Material> {
        let length = self.scale.quantity == Quantity::Length;
        self.scale.material.filter(|_| length)
    }

    /// Carries a length to 20 °C where the warmth was read and the material is known.
    fn at_reference(
        &self,
        mean: f64,
        components: Vec<Component<Source>>,
        here: &[(&Entry, &Reading)],
        gauge: Option<&Gauge>,
        notes: &mut Vec<Note>,
    ) -> Result<Figure, GaugingError> {
        let warmth = here.iter().find_map(|(_, reading)| reading.part_c);
        let (Some(celsius), Some(material)) = (warmth, self.material()) else {
            if self.material().is_some() {
                note(notes, Note::NotCorrected);
            }
            return Figure::new(mean, components);
        };
        let exact = Measured::known(Length::new::<meter>(mean), Length::new::<meter>(0.0));
        let thermometer = Thermometer {
            shown: ThermodynamicTemperature::new::<degree_celsius>(celsius),
            u: TemperatureInterval::new::<kelvin>(Standard::rectangular(THERMOMETER_K).u),
        };
        let gauge_expansion = gauge
            .and_then(|gauge| gauge.material)
            .map_or(Expansion::NONE, Expansion::of);
        let corrected = at_20_c(
            &exact,
            &Expansion::of(material),
            &gauge_expansion,
            &Warmth::Together(thermometer),
        )?;
        let factor = corrected.value.get::<meter>() / mean;
        let factor = if factor.is_finite() { factor } else { 1.0 };
        let warm = corrected.budget.rows.into_iter().map(|row| row.component);
        let warm = warm.filter(|component| component.label != Source::Reading);
        let read = components.into_iter().map(|component| Component {
            sensitivity: factor,
            ..component
        });
        Figure::new(mean * factor, read.chain(warm).collect())
    }

    /// The size that counts, and where it was read.
    fn made(
        &self,
        spots: &[SpotFigure],
        notes: &mut Vec<Note>,
    ) -> Result<Option<(Spot, Figure)>, GaugingError> {
        match self.scale.makes {
            Makes::Furthest => {
                let middle = self.middle();
                let out = |spot: &SpotFigure| match self.scale.wears {
                    Wears::Larger => spot.figure.si,
                    Wears::Smaller => -spot.figure.si,
                    Wears::Either => (spot.figure.si - middle).abs(),
                };
                // The first of equals.
                let furthest = spots.iter().rev().max_by(|a, b| out(a).total_cmp(&out(b)));
                Ok(furthest.map(|spot| (spot.spot.clone(), spot.figure.clone())))
            }
            Makes::Difference => {
                let at = |number: usize| {
                    let station = self.scale.stations.get(number);
                    spots
                        .iter()
                        .find(|spot| spot.spot.station.as_ref() == station)
                };
                let (Some(first), Some(second)) = (at(0), at(1)) else {
                    let spots = 2 - spots.len().min(2);
                    note(notes, Note::Unread { spots });
                    return Ok(None);
                };
                let mut components = first.figure.components(1.0);
                components.extend(second.figure.components(-1.0));
                drop_what_is_common(&mut components);
                let lift = Figure::new(first.figure.si - second.figure.si, components)?;
                Ok(Some((Spot::default(), lift)))
            }
        }
    }

    /// The middle of what a part of either way should measure; 0 where nothing is known.
    fn middle(&self) -> f64 {
        let ends = |low, high| Some(f64::midpoint(self.si(low)?, self.si(high)?));
        ends(SizeField::NewLow, SizeField::NewHigh)
            .or_else(|| ends(SizeField::LimitLow, SizeField::LimitHigh))
            .unwrap_or(0.0)
    }

    fn si(&self, field: SizeField) -> Option<f64> {
        self.size?.si(field)
    }

    /// The worst height that was read on every axis.
    ///
    /// # Formula
    ///
    /// As [`super::shape::Grid::out_of_round`].
    fn out_of_round(&self, spots: &[SpotFigure]) -> Result<Option<ShapeFigure>, GaugingError> {
        if self.scale.axes.len() < 2 || self.scale.makes != Makes::Furthest {
            return Ok(None);
        }
        let mut stations: Vec<Option<&SpotId>> = spots
            .iter()
            .map(|spot| spot.spot.station.as_ref())
            .collect();
        stations.dedup();
        let mut worst: Option<(Option<&SpotId>, Figure)> = None;
        for station in stations {
            let row = spots
                .iter()
                .filter(|spot| spot.spot.station.as_ref() == station);
            let row: Vec<&Figure> = row.map(|spot| &spot.figure).collect();
            if row.len() == self.scale.axes.len()
                && let Some(apart) = apart(&row)?
                && worst.as_ref().is_none_or(|(_, known)| apart.si > known.si)
            {
                worst = Some((station, apart));
            }
        }
        self.shape(worst, SizeField::OutOfRound)
    }

    /// The axis on which top and bottom are furthest apart.
    ///
    /// # Formula
    ///
    /// As [`super::shape::Grid::taper`].
    fn taper(&self, spots: &[SpotFigure]) -> Result<Option<ShapeFigure>, GaugingError> {
        let (Some(top), Some(bottom)) = (self.scale.stations.first(), self.scale.stations.last())
        else {
            return Ok(None);
        };
        if top == bottom || self.scale.makes != Makes::Furthest {
            return Ok(None);
        }
        let at = |station: &SpotId, axis: Option<&SpotId>| {
            let mut spots = spots.iter();
            spots.find(|spot| {
                spot.spot.station.as_ref() == Some(station) && spot.spot.axis.as_ref() == axis
            })
        };
        let axes: Vec<Option<&SpotId>> = if self.scale.axes.is_empty() {
            vec![None]
        } else {
            self.scale.axes.iter().map(Some).collect()
        };
        let mut worst: Option<(Option<&SpotId>, Figure)> = None;
        for axis in axes {
            if let (Some(top), Some(bottom)) = (at(top, axis), at(bottom, axis))
                && let Some(apart) = apart(&[&top.figure, &bottom.figure])?
                && worst.as_ref().is_none_or(|(_, known)| apart.si > known.si)
            {
                worst = Some((axis, apart));
            }
        }
        self.shape(worst, SizeField::Taper)
    }

    fn shape(
        &self,
        worst: Option<(Option<&SpotId>, Figure)>,
        field: SizeField,
    ) -> Result<Option<ShapeFigure>, GaugingError> {
        let Some((at, figure)) = worst else {
            return Ok(None);
        };
        let held = match self.si(field) {
            Some(limit) => Some(hold(&figure, field, Tolerance::AtMost(limit), limit)?),
            None => None,
        };
        Ok(Some(ShapeFigure {
            at: at.cloned(),
            figure,
            held,
        }))
    }

    /// The size against the limits that the sheet has, on the side to which it wears.
    fn held(&self, size: &Figure) -> Result<Vec<Held>, GaugingError> {
        let high = (self.scale.wears != Wears::Smaller).then_some(SizeField::LimitHigh);
        let low = (self.scale.wears != Wears::Larger).then_some(SizeField::LimitLow);
        let mut held = Vec::new();
        for field in [high, low].into_iter().flatten() {
            if let Some(limit) = self.si(field) {
                let tolerance = match field {
                    SizeField::LimitLow => Tolerance::AtLeast(limit),
                    _ => Tolerance::AtMost(limit),
                };
                held.push(hold(size, field, tolerance, limit)?);
            }
        }
        Ok(held)
    }

    /// The size as new: as it was read before it ran, on as much of the grid, else the sheet's range.
    fn new_size(&self, notes: &mut Vec<Note>) -> Result<Option<NewSize>, GaugingError> {
        let lacking = unread_new(self.standing, self.leaf, self.scale);
        if let Some(spots) = lacking.filter(|spots| *spots > 0) {
            note(notes, Note::NewUnread { spots });
        } else if lacking.is_some() {
            let before = self.spots(true, &mut Vec::new())?;
            if let Some((_, figure)) = self.made(&before, &mut Vec::new())? {
                return Ok(Some(NewSize {
                    si: figure.si,
                    standard: figure.standard(),
                    from: NewFrom::Measured,
                }));
            }
        }
        let (Some(low), Some(high)) = (self.si(SizeField::NewLow), self.si(SizeField::NewHigh))
        else {
            return Ok(None);
        };
        Ok(Some(NewSize {
            si: f64::midpoint(low, high),
            standard: Standard::rectangular((high - low) / 2.0),
            from: NewFrom::Range { low, high },
        }))
    }

    /// Wear, its share of the allowance, and how fast it goes.
    fn worn(&self, finding: &mut Finding, new: NewSize) -> Result<(), GaugingError> {
        let sign = match self.scale.wears {
            Wears::Larger => 1.0,
            Wears::Smaller => -1.0,
            Wears::Either => (finding.size.si - new.si).signum(),
        };
        let mut components = finding.size.components(sign);
        components.push(part(Source::AsNew, new.standard, -sign));
        let wear = Figure::new(sign * (finding.size.si - new.si), components)?;
        let limit = if sign > 0.0 {
            SizeField::LimitHigh
        } else {
            SizeField::LimitLow
        };
        if let (Quantity::Length, Some(limit)) = (self.scale.quantity, self.si(limit)) {
            // A part that was past its limit when it went in has no allowance to use.
            if sign * (limit - new.si) > 0.0 {
                self.against(finding, new, limit)?;
            }
        }
        // Which way a part of either way will go on is not known, so it has no rate.
        if self.scale.wears != Wears::Either {
            finding.rates = self.rates(finding, &wear, new, sign)?;
        }
        finding.wear = Some(wear);
        Ok(())
    }

    /// The share of the allowance, and whether the gauge is fine enough for it.
    fn against(&self, finding: &mut Finding, new: NewSize, limit: f64) -> Result<(), GaugingError> {
        let metres = Length::new::<meter>(limit);
        let share = wear_share(&finding.size.length(), &new.as_new(), metres)?;
        finding.share = Some(Figure {
            si: share.used,
            budget: share.budget,
        });
        let enough = (limit - new.si).abs() / FINE_ENOUGH / 2.0;
        if finding.size.budget.u > enough {
            finding.notes.push(Note::TooCoarse { enough });
        }
        if self.scale.wears != Wears::Either
            && let Some(run) = self.runs().next()
        {
            finding.position = Some(Position {
                size: finding.size.length(),
                as_new: new.as_new(),
                limit: metres,
                run,
                break_in: self.break_in(run),
            });
        }
        Ok(())
    }

    /// What the card says of the engine's run, in the order in which remaining life is told.
    fn runs(&self) -> impl Iterator<Item = Exposure> {
        [
            (FactField::Distance, Basis::Distance),
            (FactField::RunningTime, Basis::Time),
            (FactField::Fuel, Basis::Fuel),
        ]
        .into_iter()
        .filter_map(|(field, basis)| {
            let amount = self.standing.si(field).filter(|amount| *amount > 0.0)?;
            Some(Exposure { basis, amount })
        })
    }

    /// Until when it broke in, and its wear by then; a sheet tells it by distance.
    fn broken_in(&self, run: Exposure) -> Option<(f64, f64)> {
        let sheet = self.standing.size_sheet()?;
        let until = sheet.break_in_m.filter(|until| *until < run.amount)?;
        let wear = self.si(SizeField::BreakIn)?;
        (run.basis == Basis::Distance).then_some((until, wear))
    }

    /// The break-in of a length.
    fn break_in(&self, run: Exposure) -> Option<BreakIn> {
        let (until, wear) = self.broken_in(run)?;
        Some(BreakIn {
            until: Exposure {
                basis: Basis::Distance,
                amount: until,
            },
            wear: Measured::known(Length::new::<meter>(wear), Length::new::<meter>(0.0)),
        })
    }

    fn rates(
        &self,
        finding: &Finding,
        wear: &Figure,
        new: NewSize,
        sign: f64,
    ) -> Result<Vec<Rate>, GaugingError> {
        self.runs()
            .map(|run| {
                let figure = if self.scale.quantity == Quantity::Length {
                    let size = finding.size.length();
                    let break_in = self.break_in(run);
                    let rate = wear_rate(&size, &new.as_new(), sign > 0.0, run, break_in.as_ref())?;
                    Figure {
                        si: rate.rate,
                        budget: rate.budget,
                    }
                } else {
                    let (until, first) = self.broken_in(run).unwrap_or_default();
                    let counted = run.amount - until;
                    Figure::new((wear.si - first) / counted, wear.components(1.0 / counted))?
                };
                Ok(Rate {
                    basis: run.basis,
                    figure,
                })
            })
            .collect()
    }
}

impl NewSize {
    fn as_new(self) -> AsNew {
        let metres = Length::new::<meter>;
        match self.from {
            NewFrom::Measured => AsNew::Known(Measured {
                value: metres(self.si),
                u: metres(self.standard.u),
                dof: self.standard.dof,
            }),
            NewFrom::Range { low, high } => AsNew::Range(Range {
                low: metres(low),
                high: metres(high),
            }),
        }
    }
}

/// Half of the last digit that was typed, either way, is what a reading without a gauge is known to.
fn last_digit(reading: &Reading) -> f64 {
    let digits = reading.values.iter().map(Decimal::last_digit);
    reading.unit.to_si(digits.fold(1.0, f64::min))
}

fn note(notes: &mut Vec<Note>, new: Note) {
    if !notes.contains(&new) {
        notes.push(new);
    }
}

/// How far the furthest of several figures are apart; what the gauge is off by drops out.
fn apart(figures: &[&Figure]) -> Result<Option<Figure>, GaugingError> {
    let by = |a: &&&Figure, b: &&&Figure| a.si.total_cmp(&b.si);
    let (Some(most), Some(least)) = (figures.iter().max_by(by), figures.iter().min_by(by)) else {
        return Ok(None);
    };
    let mut components = most.components(1.0);
    // Between a figure and itself nothing lies, so the other reading of a round row counts.
    let other = if std::ptr::eq(*most, *least) {
        figures.first()
    } else {
        Some(least)
    };
    components.extend(other.map_or_else(Vec::new, |least| least.components(-1.0)));
    drop_what_is_common(&mut components);
    Ok(Some(Figure::new(most.si - least.si, components)?))
}

/// What two readings of one gauge share takes nothing from their difference: calibration and warmth.
fn drop_what_is_common(components: &mut Vec<Component<Source>>) {
    components.retain(|component| matches!(component.label, Source::Repeats | Source::Resolution));
}

fn hold(
    figure: &Figure,
    field: SizeField,
    tolerance: Tolerance,
    limit: f64,
) -> Result<Held, GaugingError> {
    Ok(Held {
        field,
        limit,
        conformity: conformity(figure.si, figure.standard(), tolerance, CONFIDENCE)?,
    })
}
