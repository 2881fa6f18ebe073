//! Measured figures: in the unit that they were read in, with as many digits as their uncertainty bears.

use ringland_assess::gauging::{
    Basis,
    finding::{CONFIDENCE, Figure},
};
use ringland_card::gauging::Unit;

use super::{LengthUnit, NBSP, Numbers, UnitPrefs};

/// Decimals of a figure whose uncertainty is `u`, so that two digits of `u` are seen.
///
/// Source: JCGM 100:2008 7.2.6.
fn decimals(u: f64) -> usize {
    if !u.is_finite() || u <= 0.0 {
        return 4;
    }
    let mut decimals = 0;
    let mut step = 10.0;
    while u < step && decimals < 9 {
        step /= 10.0;
        decimals += 1;
    }
    decimals
}

/// The expanded uncertainty U of a figure at the confidence of every verdict, in SI units; none where its
/// degrees of freedom are not known.
pub fn expanded(figure: &Figure) -> Option<f64> {
    let expanded = figure.budget.expanded(CONFIDENCE).ok().flatten();
    Some(expanded?.uncertainty).filter(|half| half.is_finite())
}

impl Numbers {
    /// A figure in SI units with its expanded uncertainty, where it has one: `129.4120 ± 0.0042 mm`.
    pub fn measured(self, figure: &Figure, unit: Unit) -> String {
        match expanded(figure) {
            Some(half) => self.sized(figure.si, half, unit),
            None => self.sized_plain(figure.si, figure.budget.u, unit),
        }
    }

    /// A number as it was typed, in the language's decimal sign: `129,410`.
    pub fn as_typed(self, text: &str) -> String {
        text.replace('.', self.decimal.encode_utf8(&mut [0; 4]))
    }

    /// An uncertainty in SI units, in a unit and with two digits: `0.0042 mm`.
    pub fn uncertain(self, u: f64, unit: Unit) -> String {
        let figure = unit.of_si(u);
        [&self.fixed(figure, decimals(figure)), NBSP, unit.sign()].concat()
    }

    /// A size in SI units with its expanded uncertainty: `129.4120 ± 0.0042 mm`.
    pub fn sized(self, si: f64, expanded: f64, unit: Unit) -> String {
        let half = unit.of_si(expanded);
        let decimals = decimals(half);
        let figure = self.fixed(unit.of_si(si), decimals);
        let half = self.fixed(half, decimals);
        [&figure, NBSP, "±", NBSP, &half, NBSP, unit.sign()].concat()
    }

    /// A size in SI units as finely as its uncertainty bears, without it: `129.4120 mm`.
    pub fn sized_plain(self, si: f64, expanded: f64, unit: Unit) -> String {
        let decimals = decimals(unit.of_si(expanded));
        let figure = self.fixed(unit.of_si(si), decimals);
        [&figure, NBSP, unit.sign()].concat()
    }

    /// A share with its expanded uncertainty, in percent: `38 ± 6 %`.
    pub fn share_with(self, share: f64, expanded: f64) -> String {
        let (figure, half) = (share * 100.0, expanded * 100.0);
        let decimals = usize::from(half < 1.0);
        [
            &self.fixed(figure, decimals),
            NBSP,
            "±",
            NBSP,
            &self.fixed(half, decimals),
            NBSP,
            "%",
        ]
        .concat()
    }

    /// How long a run is, in the reader's units and with three digits: what is left is never known better.
    pub fn run(self, amount: f64, basis: Basis, units: UnitPrefs) -> String {
        match basis {
            Basis::Distance => {
                let per = units.distance.length(1.0).value;
                self.distance_m(coarse(amount / per) * per, units)
            }
            Basis::Time => self.hours_s(coarse(amount / HOUR_S) * HOUR_S),
            Basis::Fuel => {
                let per = units.volume.volume(1.0).value;
                self.volume_m3(coarse(amount / per) * per, units)
            }
        }
    }

    /// What a wear rate is told by: 100,000 km or mi, 1,000 h, 1 m³ or 1,000 gal of fuel; in SI units of the
    /// basis, with its words.
    pub fn rate_basis(self, basis: Basis, units: UnitPrefs) -> (f64, String) {
        match basis {
            Basis::Distance => {
                let per = units.distance.length(100_000.0);
                (per.value, self.distance(per, units))
            }
            Basis::Time => (1_000.0 * HOUR_S, String::new()),
            Basis::Fuel => {
                // A cubic metre, or a thousand gallons.
                let per = units.volume.volume(1_000.0);
                (per.value, self.volume(per, units))
            }
        }
    }
}

/// Seconds in an hour.
const HOUR_S: f64 = 3_600.0;

/// To three digits.
fn coarse(figure: f64) -> f64 {
    format!("{figure:.2e}").parse().unwrap_or(figure)
}

/// The unit that a reader of these units takes sizes in.
pub fn size_unit(units: UnitPrefs) -> Unit {
    match units.length {
        LengthUnit::Millimetre => Unit::Mm,
        LengthUnit::Inch => Unit::In,
    }
}
