//! A score with its interval on the line from 0 to 10, small enough for a row.

use leptos::prelude::*;

/// A score and its 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The score.
    pub score: f64,
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

impl Interval {
    /// The mark: a line, the interval on it and the score on that. The figures stand beside it in words.
    pub fn mark(self) -> AnyView {
        let at = |score: f64| format!("{:.2}", score * 10.0);
        let width = format!("{:.2}", ((self.high - self.low) * 10.0).max(1.5));
        view! {
            <svg class="mark" viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">
                <rect class="mark__line" x="0" y="5" width="100" height="2"/>
                <rect class="mark__band" x=at(self.low) y="2" width=width height="8"/>
                <rect class="mark__score" x=at((self.score - 0.08).clamp(0.0, 9.84)) y="0" width="1.6" height="12"/>
            </svg>
        }
        .into_any()
    }
}
