//! Size sheets: the sizes of new parts and the wear limits, as the engine maker gives them.
//!
//! No sheet ships with this code. A sheet is typed in by its user, kept under a name, and stands whole in
//! each card that was held against it.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{Decimal, Quantity, Unit, Wears, unit::units_of};
use crate::{
    card::LONGEST_TEXT,
    ids::{CharacteristicId, PlaceId},
    plan::Plan,
    scale::{GaugedScale, Scale},
};

/// The most sizes that one sheet may hold.
pub const MOST_SIZES: usize = 2_000;

/// The longest break-in, metres: beyond any.
pub const LONGEST_BREAK_IN_M: f64 = 1e9;

/// A named sheet of sizes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SizeSheet {
    /// What it is called.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = LONGEST_TEXT)))]
    pub name: String,
    /// Where its figures come from: a manual and its issue.
    #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_TEXT)))]
    pub source: String,
    /// When breaking in is over, metres; left out where it is not told apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = LONGEST_BREAK_IN_M)))]
    pub break_in_m: Option<f64>,
    /// The sizes.
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SIZES)))]
    pub sizes: Vec<Size>,
}

/// What one kind of part measures when new, and how far it may wear. What is left out is not known.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Size {
    /// Where: the same for every position of the place.
    pub place: PlaceId,
    /// What is measured there.
    pub characteristic: CharacteristicId,
    /// The unit of the figures.
    pub unit: Unit,
    /// The least that a new part measures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub new_low: Option<Decimal>,
    /// The most that a new part measures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub new_high: Option<Decimal>,
    /// The least that a worn part may measure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit_low: Option<Decimal>,
    /// The most that a worn part may measure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit_high: Option<Decimal>,
    /// The most that a part may be out of round.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub out_of_round: Option<Decimal>,
    /// The most that a part may taper.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taper: Option<Decimal>,
    /// The wear while breaking in, which does not go on at that rate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub break_in: Option<Decimal>,
}

/// A figure of a size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SizeField {
    /// See [`Size::new_low`].
    NewLow,
    /// See [`Size::new_high`].
    NewHigh,
    /// See [`Size::limit_low`].
    LimitLow,
    /// See [`Size::limit_high`].
    LimitHigh,
    /// See [`Size::out_of_round`].
    OutOfRound,
    /// See [`Size::taper`].
    Taper,
    /// See [`Size::break_in`].
    BreakIn,
}

impl SizeField {
    /// Every figure, in the order of a sheet's columns.
    pub const ALL: [Self; 7] = [
        Self::NewLow,
        Self::NewHigh,
        Self::LimitLow,
        Self::LimitHigh,
        Self::OutOfRound,
        Self::Taper,
        Self::BreakIn,
    ];

    /// The name as the file writes it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::NewLow => "new_low",
            Self::NewHigh => "new_high",
            Self::LimitLow => "limit_low",
            Self::LimitHigh => "limit_high",
            Self::OutOfRound => "out_of_round",
            Self::Taper => "taper",
            Self::BreakIn => "break_in",
        }
    }
}

/// Why a size sheet was refused: which row, which figure, and what is wrong with it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SizeError {
    /// A name that is empty, or a text that is too long.
    #[error("the {what} has {given} characters: allowed is {least} to {LONGEST_TEXT}")]
    Text {
        /// Name or source.
        what: &'static str,
        /// Its length.
        given: usize,
        /// The least allowed.
        least: usize,
    },
    /// More sizes than a sheet may hold.
    #[error("the sheet has {given} sizes: allowed is {MOST_SIZES} at most")]
    TooMany {
        /// How many there are.
        given: usize,
    },
    /// A size that stands twice.
    #[error("`{of}` stands twice")]
    Twice {
        /// Place and characteristic.
        of: String,
    },
    /// One end of the range of new parts without the other.
    #[error("`{of}`: {} is missing: a range has two ends", field.as_str())]
    HalfRange {
        /// Place and characteristic.
        of: String,
        /// The end that is missing.
        field: SizeField,
    },
    /// A range whose ends are the wrong way round.
    #[error("`{of}`: new_low {low} is above new_high {high}")]
    Reversed {
        /// Place and characteristic.
        of: String,
        /// Its lower end as typed.
        low: String,
        /// Its upper end as typed.
        high: String,
    },
    /// A limit within the range of new parts, or on its wrong side.
    #[error("`{of}`: {} is {given}, which a new part may measure: it must be {side} {bound}", field.as_str())]
    LimitInside {
        /// Place and characteristic.
        of: String,
        /// Which limit.
        field: SizeField,
        /// The limit as typed.
        given: String,
        /// `above` or `below`.
        side: &'static str,
        /// What it must be beyond, as typed.
        bound: String,
    },
    /// Two limits the wrong way round.
    #[error("`{of}`: limit_low {low} is not below limit_high {high}")]
    LimitsReversed {
        /// Place and characteristic.
        of: String,
        /// The lower limit as typed.
        low: String,
        /// The upper limit as typed.
        high: String,
    },
    /// A limit on the side to which the part does not wear.
    #[error("`{of}` wears {way}: {} does not limit it", field.as_str())]
    WrongSide {
        /// Place and characteristic.
        of: String,
        /// The limit.
        field: SizeField,
        /// `larger` or `smaller`.
        way: &'static str,
    },
    /// A shape that may be off by nothing or less.
    #[error("`{of}`: {} is {given}: it must be above 0", field.as_str())]
    Shape {
        /// Place and characteristic.
        of: String,
        /// Out-of-round or taper.
        field: SizeField,
        /// What was typed.
        given: String,
    },
    /// A break-in that ends before it begins, or a wear below none.
    #[error("`{of}`: {given} is no break-in: it must be 0 or more")]
    BreakIn {
        /// Place and characteristic; `sheet` for the distance.
        of: String,
        /// What was given.
        given: String,
    },
    /// A unit of another quantity.
    #[error("`{of}` is measured in {}, not in {}", units_of(*.quantity), .given.as_str())]
    Unit {
        /// Place and characteristic.
        of: String,
        /// The unit given.
        given: Unit,
        /// What is measured.
        quantity: Quantity,
    },
}

impl Size {
    /// A size of which nothing is known yet.
    pub fn open(place: PlaceId, characteristic: CharacteristicId, unit: Unit) -> Self {
        Self {
            place,
            characteristic,
            unit,
            new_low: None,
            new_high: None,
            limit_low: None,
            limit_high: None,
            out_of_round: None,
            taper: None,
            break_in: None,
        }
    }

    /// The figure of that field as typed.
    pub fn field(&self, field: SizeField) -> Option<&Decimal> {
        match field {
            SizeField::NewLow => self.new_low.as_ref(),
            SizeField::NewHigh => self.new_high.as_ref(),
            SizeField::LimitLow => self.limit_low.as_ref(),
            SizeField::LimitHigh => self.limit_high.as_ref(),
            SizeField::OutOfRound => self.out_of_round.as_ref(),
            SizeField::Taper => self.taper.as_ref(),
            SizeField::BreakIn => self.break_in.as_ref(),
        }
    }

    /// The place of the figure of that field.
    pub fn field_mut(&mut self, field: SizeField) -> &mut Option<Decimal> {
        match field {
            SizeField::NewLow => &mut self.new_low,
            SizeField::NewHigh => &mut self.new_high,
            SizeField::LimitLow => &mut self.limit_low,
            SizeField::LimitHigh => &mut self.limit_high,
            SizeField::OutOfRound => &mut self.out_of_round,
            SizeField::Taper => &mut self.taper,
            SizeField::BreakIn => &mut self.break_in,
        }
    }

    /// The figure of that field in the SI unit.
    pub fn si(&self, field: SizeField) -> Option<f64> {
        Some(self.unit.to_si(self.field(field)?.value()))
    }

    /// Whether nothing is known of it.
    pub fn is_open(&self) -> bool {
        SizeField::ALL
            .into_iter()
            .all(|field| self.field(field).is_none())
    }

    fn name(&self) -> String {
        format!("{}: {}", self.place, self.characteristic)
    }

    fn check(&self) -> Result<(), SizeError> {
        self.check_range()?;
        self.check_limits()?;
        if let Some(given) = &self.break_in
            && given.value() < 0.0
        {
            return Err(SizeError::BreakIn {
                of: self.name(),
                given: given.to_string(),
            });
        }
        for field in [SizeField::OutOfRound, SizeField::Taper] {
            if let Some(given) = self.field(field)
                && given.value() <= 0.0
            {
                return Err(SizeError::Shape {
                    of: self.name(),
                    field,
                    given: given.to_string(),
                });
            }
        }
        Ok(())
    }

    fn check_range(&self) -> Result<(), SizeError> {
        let half = |field| {
            Err(SizeError::HalfRange {
                of: self.name(),
                field,
            })
        };
        match (&self.new_low, &self.new_high) {
            (Some(_), None) => half(SizeField::NewHigh),
            (None, Some(_)) => half(SizeField::NewLow),
            (Some(low), Some(high)) if low.value() > high.value() => Err(SizeError::Reversed {
                of: self.name(),
                low: low.to_string(),
                high: high.to_string(),
            }),
            _ => Ok(()),
        }
    }

    fn check_limits(&self) -> Result<(), SizeError> {
        let inside = |field, given: &Decimal, side, bound: &Decimal| {
            Err(SizeError::LimitInside {
                of: self.name(),
                field,
                given: given.to_string(),
                side,
                bound: bound.to_string(),
            })
        };
        if let (Some(limit), Some(new)) = (&self.limit_high, &self.new_high)
            && limit.value() <= new.value()
        {
            return inside(SizeField::LimitHigh, limit, "above", new);
        }
        if let (Some(limit), Some(new)) = (&self.limit_low, &self.new_low)
            && limit.value() >= new.value()
        {
            return inside(SizeField::LimitLow, limit, "below", new);
        }
        match (&self.limit_low, &self.limit_high) {
            (Some(low), Some(high)) if low.value() >= high.value() => {
                Err(SizeError::LimitsReversed {
                    of: self.name(),
                    low: low.to_string(),
                    high: high.to_string(),
                })
            }
            _ => Ok(()),
        }
    }

    /// Refuses a size that does not fit what is measured.
    ///
    /// # Errors
    ///
    /// [`SizeError::Unit`] and [`SizeError::WrongSide`].
    pub fn check_on(&self, scale: &GaugedScale) -> Result<(), SizeError> {
        self.check_unit(scale.quantity)?;
        let (field, way) = match scale.wears {
            Wears::Larger => (SizeField::LimitLow, "larger"),
            Wears::Smaller => (SizeField::LimitHigh, "smaller"),
            Wears::Either => return Ok(()),
        };
        if self.field(field).is_some() {
            return Err(SizeError::WrongSide {
                of: self.name(),
                field,
                way,
            });
        }
        Ok(())
    }

    fn check_unit(&self, quantity: Quantity) -> Result<(), SizeError> {
        if self.unit.quantity() == quantity {
            return Ok(());
        }
        Err(SizeError::Unit {
            of: self.name(),
            given: self.unit,
            quantity,
        })
    }
}

impl SizeSheet {
    /// Refuses a sheet that contradicts itself.
    ///
    /// # Errors
    ///
    /// [`SizeError`] with the row and the figure.
    pub fn check(&self) -> Result<(), SizeError> {
        for (what, text, least) in [("name", &self.name, 1), ("source", &self.source, 0)] {
            let given = text.chars().count();
            if !(least..=LONGEST_TEXT).contains(&given) {
                return Err(SizeError::Text { what, given, least });
            }
        }
        if let Some(given) = self.break_in_m
            && !(0.0..=LONGEST_BREAK_IN_M).contains(&given)
        {
            return Err(SizeError::BreakIn {
                of: "sheet".to_owned(),
                given: given.to_string(),
            });
        }
        let given = self.sizes.len();
        if given > MOST_SIZES {
            return Err(SizeError::TooMany { given });
        }
        let mut seen = BTreeSet::new();
        for size in &self.sizes {
            if !seen.insert((size.place.as_str(), size.characteristic.as_str())) {
                return Err(SizeError::Twice { of: size.name() });
            }
            size.check()?;
        }
        Ok(())
    }

    /// Refuses a sheet that contradicts what a plan measures. Sizes of what the plan does not measure are
    /// kept and not held against anything.
    ///
    /// # Errors
    ///
    /// [`SizeError`] with the row and the figure.
    pub fn check_for(&self, plan: &Plan) -> Result<(), SizeError> {
        self.check()?;
        self.misfits(plan).next().map_or(Ok(()), Err)
    }

    /// The sizes that do not fit what a plan measures, in its order. A sheet may have been written for
    /// another plan: such a size is not used, which whoever chooses the sheet is to be told.
    pub fn misfits(&self, plan: &Plan) -> impl Iterator<Item = SizeError> {
        let looks = plan
            .places()
            .flat_map(|(.., place)| place.looks.iter().map(move |look| (place, look)));
        looks.filter_map(|(place, look)| {
            let Some(Scale::Gauged(scale)) = plan.scale(&look.scale) else {
                return None;
            };
            self.size(&place.id, &look.id)?.check_on(scale).err()
        })
    }

    /// The size of a characteristic of a place that is measured in such a quantity; one in units of
    /// another is none, see [`SizeSheet::misfits`].
    pub fn size_in(
        &self,
        quantity: Quantity,
        place: &PlaceId,
        characteristic: &CharacteristicId,
    ) -> Option<&Size> {
        let size = self.size(place, characteristic)?;
        (size.unit.quantity() == quantity).then_some(size)
    }

    /// The size of a characteristic of a place, whatever its unit.
    pub fn size(&self, place: &PlaceId, characteristic: &CharacteristicId) -> Option<&Size> {
        self.sizes
            .iter()
            .find(|size| size.place == *place && size.characteristic == *characteristic)
    }
}
