//! How fast a part wears, per distance, per hour or per fuel burned.

use ringland_stats::uncertainty::{Budget, combine};
use uom::si::{
    f64::{Length, Time, Volume},
    length::meter,
    time::second,
    volume::cubic_meter,
};

use super::reading::{AsNew, GaugingError, Measured, Source, part};

/// What a run is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// Distance, in metres.
    Distance,
    /// Time, in seconds.
    Time,
    /// Fuel burned, in cubic metres.
    Fuel,
}

/// How long an engine has run, or could.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exposure {
    /// What it is counted in.
    pub basis: Basis,
    /// How much, in the SI unit of the basis.
    pub amount: f64,
}

impl Exposure {
    /// A distance.
    pub fn distance(run: Length) -> Self {
        Self {
            basis: Basis::Distance,
            amount: run.get::<meter>(),
        }
    }

    /// A time.
    pub fn time(run: Time) -> Self {
        Self {
            basis: Basis::Time,
            amount: run.get::<second>(),
        }
    }

    /// An amount of fuel.
    pub fn fuel(burned: Volume) -> Self {
        Self {
            basis: Basis::Fuel,
            amount: burned.get::<cubic_meter>(),
        }
    }
}

/// What is known of the wear while breaking in, which does not go on at that rate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreakIn {
    /// When it was over.
    pub until: Exposure,
    /// The wear until then.
    pub wear: Measured,
}

/// A wear rate, with the budget of its uncertainty.
#[derive(Clone, Debug, PartialEq)]
pub struct WearRate {
    /// What the run was counted in.
    pub basis: Basis,
    /// Metres of wear for each SI unit of the basis; above 0 towards the limit.
    pub rate: f64,
    /// What its uncertainty is made of.
    pub budget: Budget<Source>,
}

/// The wear rate of a part that was measured once.
///
/// # Formula
///
/// ```text
/// r = (w − w_break-in)/(D − D_break-in)        w = ±(x − x_new), + where the size grows
/// ```
///
/// The run itself is taken as exact: an odometer is far better known than wear is.
///
/// # Errors
///
/// [`GaugingError::Run`] unless the run is longer than the break-in and counted alike.
pub fn wear_rate(
    x: &Measured,
    as_new: &AsNew,
    grows: bool,
    run: Exposure,
    break_in: Option<&BreakIn>,
) -> Result<WearRate, GaugingError> {
    let counted = counted(run, break_in)?;
    let sign = if grows { 1.0 } else { -1.0 };
    let new = as_new.measured();
    let wear = sign * (x.value - new.value).get::<meter>();
    let mut components = vec![
        part(Source::Reading, x.standard(), sign / counted),
        part(Source::AsNew, new.standard(), -sign / counted),
    ];
    let mut at_first = 0.0;
    if let Some(BreakIn { wear, .. }) = break_in {
        at_first = wear.value.get::<meter>();
        components.push(part(Source::BreakIn, wear.standard(), -1.0 / counted));
    }
    Ok(WearRate {
        basis: run.basis,
        rate: (wear - at_first) / counted,
        budget: combine(components, &[])?,
    })
}

/// The part of a run after the break-in.
pub(super) fn counted(run: Exposure, break_in: Option<&BreakIn>) -> Result<f64, GaugingError> {
    let until = break_in.map_or(0.0, |break_in| break_in.until.amount);
    let alike = break_in.is_none_or(|break_in| break_in.until.basis == run.basis);
    let counted = run.amount - until;
    if alike && until >= 0.0 && counted > 0.0 && counted.is_finite() {
        Ok(counted)
    } else {
        Err(GaugingError::Run {
            run: run.amount,
            until,
        })
    }
}
