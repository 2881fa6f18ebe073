//! How much of its wear allowance a part has used.

use ringland_stats::uncertainty::{Budget, combine};
use uom::si::{f64::Length, length::meter};

use super::reading::{AsNew, GaugingError, Measured, Source, part};

/// The share of a wear allowance that is used, with the budget of its uncertainty (no unit).
#[derive(Clone, Debug, PartialEq)]
pub struct WearShare {
    /// c: 0 as new, 1 at the limit; outside of both it says so.
    pub used: f64,
    /// What its uncertainty is made of.
    pub budget: Budget<Source>,
}

/// The share of the wear allowance that is used.
///
/// # Formula
///
/// ```text
/// c      = (x − x_new)/(x_limit − x_new)
/// ∂c/∂x  = 1/(x_limit − x_new)        ∂c/∂x_new = (x − x_limit)/(x_limit − x_new)²
/// ```
///
/// The same for sizes that grow and for sizes that shrink. Where only the range of new parts is known,
/// x_new is its middle with the range's rectangular uncertainty.
///
/// # Errors
///
/// [`GaugingError::NoAllowance`] when the limit is the as-new size.
pub fn wear_share(x: &Measured, as_new: &AsNew, limit: Length) -> Result<WearShare, GaugingError> {
    let new = as_new.measured();
    let allowance = (limit - new.value).get::<meter>();
    if allowance == 0.0 {
        return Err(GaugingError::NoAllowance);
    }
    let components = vec![
        part(Source::Reading, x.standard(), 1.0 / allowance),
        part(
            Source::AsNew,
            new.standard(),
            (x.value - limit).get::<meter>() / allowance / allowance,
        ),
    ];
    Ok(WearShare {
        used: (x.value - new.value).get::<meter>() / allowance,
        budget: combine(components, &[])?,
    })
}
