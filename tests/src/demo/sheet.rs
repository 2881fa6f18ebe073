//! The invented size sheet of an invented model.

use ringland_card::{
    Plan,
    gauging::{Decimal, DecimalError, Size, SizeField, SizeSheet, Wears},
    scale::Scale,
};
use uom::si::{
    f64::Length,
    length::{kilometer, meter},
};

use super::{fleet::Model, gauges::fixed, kinds::Kind};

/// When an engine of the demo has broken in, km.
const BREAK_IN_KM: f64 = 30_000.0;

/// The sheet of a model, for what a plan measures.
pub(super) fn sheet(model: &Model, plan: &Plan) -> Result<SizeSheet, DecimalError> {
    let mut sizes = Vec::new();
    for (.., place) in plan.places() {
        for look in &place.looks {
            let Some(Scale::Gauged(_)) = plan.scale(&look.scale) else {
                continue;
            };
            let Some(kind) = Kind::of(place.id.as_str(), look.id.as_str()) else {
                continue;
            };
            let unit = kind.tool.sheet_unit();
            let mut size = Size::open(place.id.clone(), look.id.clone(), unit);
            for (field, figure) in kind.figures(model.column) {
                *size.field_mut(field) = Some(Decimal::new(&figure)?);
            }
            sizes.push(size);
        }
    }
    Ok(SizeSheet {
        name: format!("Demo sizes, {}", model.name),
        source: "Invented for the demo engines: no maker's figures".to_owned(),
        break_in_m: Some(Length::new::<kilometer>(BREAK_IN_KM).get::<meter>()),
        sizes,
    })
}

impl Kind {
    /// What the sheet says, in millimetres or grams as people write them.
    fn figures(&self, column: usize) -> Vec<(SizeField, String)> {
        use SizeField::{BreakIn, LimitHigh, LimitLow, NewHigh, NewLow, OutOfRound, Taper};
        let low = self.least[column];
        let high = low + self.width;
        let mut figures = vec![(NewLow, low), (NewHigh, high)];
        if self.allowance > 0 {
            if self.way != Wears::Larger {
                figures.push((LimitLow, low - self.allowance));
            }
            if self.way != Wears::Smaller {
                figures.push((LimitHigh, high + self.allowance));
            }
        }
        let rest = [
            (OutOfRound, self.out_of_round),
            (Taper, self.taper),
            (BreakIn, self.break_in),
        ];
        figures.extend(rest.into_iter().filter(|(_, figure)| *figure > 0));
        let tens = figures.iter().all(|(_, figure)| figure % 10 == 0);
        figures
            .into_iter()
            .map(|(field, figure)| {
                let text = if tens {
                    fixed(figure / 10, 2)
                } else {
                    fixed(figure, 3)
                };
                (field, text)
            })
            .collect()
    }
}
