//! What there is to say of an engine before it is taken apart.

use ringland_card::{Cause, Depth, Layout, NotInspected};

use super::{gauges::Tool, rater::Rater};

/// An oil of the trial. `effect` is what it adds to the stress in each mode, in the order of
/// [`super::wear::Mode`]; the first oil is the reference.
pub(super) struct Oil {
    pub(super) name: &'static str,
    pub(super) grade: &'static str,
    pub(super) category: &'static str,
    pub(super) effect: [f64; 5],
}

/// One engine of the trial.
pub(super) struct Engine {
    pub(super) slug: &'static str,
    /// Its row of draws.
    pub(super) stream: u64,
    pub(super) layout: fn() -> Layout,
    pub(super) depth: Depth,
    pub(super) name: &'static str,
    pub(super) vehicle: &'static str,
    pub(super) model: &'static Model,
    pub(super) serial: &'static str,
    pub(super) site: &'static str,
    pub(super) duty: &'static str,
    pub(super) distance_km: f64,
    pub(super) hours: f64,
    pub(super) fuel_l: f64,
    pub(super) oil: &'static Oil,
    pub(super) drain_km: f64,
    pub(super) sump_l: f64,
    pub(super) reason: &'static str,
    /// What the duty adds to the stress in each mode.
    pub(super) duty_effect: [f64; 5],
    /// Who rated it; the first also wrote the facts.
    pub(super) raters: &'static [&'static Rater],
    /// The days at the bench.
    pub(super) days: &'static [Day],
    /// The first section that nobody has begun, in an engine that is half done.
    pub(super) until: Option<&'static str>,
    pub(super) findings: &'static [Finding],
    pub(super) unseen: &'static [Unseen],
    pub(super) slips: &'static [Slip],
    pub(super) remarks: &'static [Remark],
    pub(super) gauging: Gauging,
}

/// An engine model: its name, and its column of new sizes in [`super::kinds`].
pub(super) struct Model {
    pub(super) name: &'static str,
    pub(super) column: usize,
}

/// What was measured of an engine once it had been rated.
pub(super) struct Gauging {
    pub(super) day: Day,
    /// How warm it was at the bench, °C.
    pub(super) part_c: f64,
    /// The position at which it was broken off, in an engine that is half done.
    pub(super) stops_at: Option<&'static str>,
    /// What another rater read too.
    pub(super) again: &'static [&'static str],
    /// What was read with another tool than usual.
    pub(super) with: &'static [Instead],
    /// Wear beyond ordinary running: a size is set in micrometres of wear.
    pub(super) worn: &'static [Finding],
    /// Sizes that were not to be had, beyond what was not to be seen.
    pub(super) unread: &'static [Unseen],
    /// Readings typed with the point one place off, and put right.
    pub(super) slips: &'static [(&'static str, &'static str)],
}

/// Another tool.
pub(super) struct Instead {
    pub(super) at: &'static str,
    pub(super) look: &'static str,
    pub(super) tool: &'static Tool,
}

/// A day at the bench, in November 2026, universal time, and the section it began with.
pub(super) struct Day {
    pub(super) of_month: i64,
    pub(super) hour: i64,
    pub(super) minute: i64,
    pub(super) section: &'static str,
}

/// Something that happened to this engine beyond ordinary running.
pub(super) struct Finding {
    /// Where: a name, with `*` for any run of characters.
    pub(super) at: &'static str,
    /// What it shows in, likewise.
    pub(super) look: &'static str,
    pub(super) effect: Effect,
    /// What the first rater holds answerable.
    pub(super) cause: Option<Cause>,
}

/// What a finding does to a level.
#[derive(Clone, Copy)]
pub(super) enum Effect {
    /// Multiplies it.
    Times(f64),
    /// Sets it.
    Is(f64),
}

/// A look that was not to be had.
pub(super) struct Unseen {
    pub(super) at: &'static str,
    /// The look; every one of the position where it is empty.
    pub(super) look: &'static str,
    pub(super) reason: NotInspected,
}

/// A rating that was put right.
pub(super) struct Slip {
    pub(super) at: &'static str,
    pub(super) look: &'static str,
    /// How far the first rating was off, in the unit of the level.
    pub(super) off: f64,
    /// Why it was voided; a second thought where there is no reason, which supersedes the first.
    pub(super) void: Option<&'static str>,
}

/// Words of the first rater, on a position or, where that is empty, on the engine.
pub(super) struct Remark {
    pub(super) at: &'static str,
    pub(super) look: &'static str,
    pub(super) text: &'static str,
}

/// Whether a name fits a pattern with at most one `*`.
pub(super) fn fits(pattern: &str, name: &str) -> bool {
    match pattern.split_once('*') {
        None => pattern == name,
        Some((head, tail)) => {
            name.len() >= head.len() + tail.len() && name.starts_with(head) && name.ends_with(tail)
        }
    }
}

impl Finding {
    pub(super) fn hits(&self, position: &str, look: &str) -> bool {
        fits(self.at, position) && fits(self.look, look)
    }
}

impl Unseen {
    pub(super) fn hits(&self, position: &str, look: &str) -> bool {
        fits(self.at, position) && (self.look.is_empty() || self.look == look)
    }
}

impl Instead {
    pub(super) fn hits(&self, position: &str, look: &str) -> bool {
        fits(self.at, position) && self.look == look
    }
}
