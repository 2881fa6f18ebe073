//! The trade's own figures, worked out as their standards do, beside the score and never mixed with it.
//!
//! | figure | where | range |
//! |---|---|---|
//! | demerit of a land or groove | [`demerit::demerit`] | 0 clean to 100 |
//! | weighted demerit total of a piston | [`piston::weighted_demerits`] | 0 and up |
//! | top groove fill, top land heavy carbon | [`piston`] | 0 to 100 percent |
//! | sludge and varnish merit | [`demerit::merit`], [`merits`] | 0 to 10 clean |
//! | ring face distress | [`ring::distress`] | 0 to 1 |
//! | merit sum of anchors, limits and best credits | [`criteria::judge`] | 0 and up |
//! | limits by number of tests | [`test_limits::TestLimits::judge`] | |
//!
//! A merit is no demerit turned round: the two are different scales and nothing converts between them.

pub mod criteria;
pub mod demerit;
pub mod merits;
pub mod piston;
pub mod ring;
pub mod rounding;
pub mod test_limits;
#[cfg(test)]
mod tests;

use ringland_card::{
    Standing,
    entry::{Areas, Body, Look},
    ids::{CharacteristicId, PositionId},
    plan::{Characteristic, LeafId, Place, TradeFigure},
};

use self::{demerit::mean_areas, merits::mean_merit, piston::pistons, ring::rings};

/// The trade figures of one piston.
#[derive(Clone, Debug, PartialEq)]
pub struct PistonFigures {
    /// The piston.
    pub position: PositionId,
    /// The demerit of each rated land and groove, 0 (clean) to 100, in plan order.
    pub lands_and_grooves: Vec<(CharacteristicId, f64)>,
    /// How many lands and grooves the plan asks for: a total over fewer is no total of the piston.
    pub asked: usize,
    /// Weighted demerit total over the rated lands and grooves; none where none is rated.
    pub weighted_demerits: Option<f64>,
    /// Top groove fill, percent; none where groove 1 is not rated.
    pub top_groove_fill: Option<f64>,
    /// Heavy carbon on the top land, percent; none where land 1 is not rated.
    pub top_land_heavy_carbon: Option<f64>,
}

/// The ring face distress of one ring.
#[derive(Clone, Debug, PartialEq)]
pub struct RingFigure {
    /// The ring.
    pub position: PositionId,
    /// Distress demerit, 0 to 1; none where nobody rated it.
    pub distress: Option<f64>,
}

/// The trade figures of one card. A figure without anything rated behind it is none, not 0.
#[derive(Clone, Debug, PartialEq)]
pub struct TradeFigures {
    /// Whether the plan gives no location factors, so that a weighted total is a plain sum.
    pub unweighted: bool,
    /// By piston, in plan order.
    pub pistons: Vec<PistonFigures>,
    /// Mean weighted demerit total of the pistons that have one.
    pub weighted_demerits: Option<f64>,
    /// Mean top groove fill, percent.
    pub top_groove_fill: Option<f64>,
    /// Mean heavy carbon on the top land, percent.
    pub top_land_heavy_carbon: Option<f64>,
    /// Mean sludge merit of the rated places, 0 to 10 (clean).
    pub sludge_merit: Option<f64>,
    /// Mean varnish merit of the rated places, 0 to 10 (clean).
    pub varnish_merit: Option<f64>,
    /// By ring, in plan order.
    pub rings: Vec<RingFigure>,
    /// Mean ring face distress demerit, 0 to 1.
    pub ring_distress: Option<f64>,
}

impl TradeFigures {
    /// The figure that a criterion may be set on, in the unit of its field.
    pub fn value(&self, figure: TradeFigure) -> Option<f64> {
        match figure {
            TradeFigure::WeightedDemerits => self.weighted_demerits,
            TradeFigure::TopGrooveFill => self.top_groove_fill,
            TradeFigure::TopLandHeavyCarbon => self.top_land_heavy_carbon,
            TradeFigure::SludgeMerit => self.sludge_merit,
            TradeFigure::VarnishMerit => self.varnish_merit,
            TradeFigure::RingDistress => self.ring_distress,
        }
    }
}

/// Works the trade figures of a card out. Cost: linear in the plan and the looks.
///
/// Where several raters looked, their areas are averaged level by level first. A mean over pistons,
/// places or rings takes those that have the figure, each once.
pub fn trade_figures(standing: &Standing<'_>) -> TradeFigures {
    let pistons = pistons(standing);
    let rings = rings(standing);
    TradeFigures {
        unweighted: standing.plan.location_factors.is_empty(),
        weighted_demerits: mean(pistons.iter().map(|piston| piston.weighted_demerits)),
        top_groove_fill: mean(pistons.iter().map(|piston| piston.top_groove_fill)),
        top_land_heavy_carbon: mean(pistons.iter().map(|piston| piston.top_land_heavy_carbon)),
        sludge_merit: mean_merit(standing, "sludge"),
        varnish_merit: mean_merit(standing, "varnish"),
        ring_distress: mean(rings.iter().map(|ring| ring.distress)),
        pistons,
        rings,
    }
}

/// The mean of the figures that there are; none of none.
fn mean(figures: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    let (mut n, mut sum) = (0, 0.0);
    for figure in figures.flatten() {
        n += 1;
        sum += figure;
    }
    (n > 0).then(|| sum / f64::from(n))
}

/// What raters now say of a leaf; *not inspected* says nothing.
fn looks<'s>(standing: &'s Standing<'_>, leaf: LeafId) -> impl Iterator<Item = &'s Look> {
    let entries = standing.looks.get(leaf.0).map_or(&[][..], Vec::as_slice);
    entries.iter().filter_map(|entry| match &entry.body {
        Body::Rating { look, .. } => Some(look),
        _ => None,
    })
}

/// The mean of the raters' areas at a leaf; none where nobody gave any.
fn areas(standing: &Standing<'_>, leaf: LeafId) -> Option<Areas> {
    let all: Vec<&Areas> = looks(standing, leaf)
        .filter_map(|look| match look {
            Look::Areas(areas) => Some(areas),
            _ => None,
        })
        .collect();
    (!all.is_empty()).then(|| mean_areas(&all))
}

/// The leaves of a position, each with what is looked at there.
fn leaves_of<'p>(
    standing: &Standing<'_>,
    place: &'p Place,
    position: &PositionId,
) -> impl Iterator<Item = (LeafId, &'p Characteristic)> {
    standing
        .index
        .of_position(standing.plan, position.as_str())
        .map(LeafId)
        .zip(&place.looks)
}
