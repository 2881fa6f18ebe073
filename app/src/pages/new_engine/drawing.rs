//! The cylinders seen from above, so that a layout is known at a glance.

use leptos::prelude::*;
use ringland_card::{Layout, layout::Arrangement};
use ringland_report::markup::Html;

/// Room for one cylinder.
const PITCH: u32 = 34;
/// Room for the letters of the banks.
const MARGIN: u32 = 4;

/// The drawing. Everything in it is said in words beside it.
#[component]
pub fn Drawing(
    /// The layout.
    layout: RwSignal<Layout>,
) -> impl IntoView {
    view! { <div class="drawing" aria-hidden="true" inner_html=move || layout.with(drawn)></div> }
}

fn drawn(layout: &Layout) -> String {
    let places = places(layout);
    let end = |of: fn(&Place) -> u32| {
        let last = places.iter().map(of).max().unwrap_or_default();
        (last + PITCH / 2 + MARGIN).to_string()
    };
    let (width, height) = (end(|place| place.x), end(|place| place.y));
    let frame = format!("0 0 {width} {height}");
    let radius = (PITCH / 2 - 3).to_string();
    let mut html = Html::new();
    html.with(
        "svg",
        &[("viewBox", &frame), ("width", &width), ("height", &height)],
    );
    for Place { x, y, name } in &places {
        let [x, y, below] = [*x, *y, y + 4].map(|at| at.to_string());
        html.with("circle", &[("cx", &x), ("cy", &y), ("r", &radius)])
            .close("circle")
            .with("text", &[("x", &x), ("y", &below)])
            .text(name)
            .close("text");
    }
    html.close("svg");
    html.done()
}

/// A cylinder on the drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Place {
    x: u32,
    y: u32,
    name: String,
}

/// The front is on the left; a V's left bank stands above its right one, half a pitch ahead.
fn places(layout: &Layout) -> Vec<Place> {
    let names = layout.cylinder_names();
    let in_bank = names.len() / usize::from(layout.banks());
    names
        .into_iter()
        .enumerate()
        .map(|(number, name)| {
            let (bank, along) = (number / in_bank, number % in_bank);
            let [bank, along] = [bank, along].map(|n| u32::try_from(n).unwrap_or_default());
            let ahead = match layout.arrangement {
                Arrangement::Inline => 0,
                Arrangement::Vee => bank * PITCH / 2,
            };
            Place {
                x: MARGIN + PITCH / 2 + along * PITCH + ahead,
                y: MARGIN + PITCH / 2 + bank * PITCH,
                name,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_for_each_bank() {
        let rows = |layout: &Layout| {
            let mut rows: Vec<u32> = places(layout).iter().map(|place| place.y).collect();
            rows.dedup();
            rows.len()
        };
        assert_eq!(rows(&Layout::inline_six()), 1);
        assert_eq!(rows(&Layout::vee_eight()), 2);
        assert_eq!(places(&Layout::vee_eight())[4].name, "R1");
    }
}
