//! The cylinders seen from above, so that a layout is known at a glance.

use leptos::prelude::*;
use ringland_card::{Layout, layout::Arrangement};

use crate::components::live::live;

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
    view! { <div class="drawing" aria-hidden="true">{live(move || layout.with(drawn))}</div> }
}

fn drawn(layout: &Layout) -> impl IntoView + use<> {
    let places = places(layout);
    let width = places.iter().map(|place| place.x).max().unwrap_or_default() + PITCH / 2 + MARGIN;
    let height = places.iter().map(|place| place.y).max().unwrap_or_default() + PITCH / 2 + MARGIN;
    let shapes = places.into_iter().map(|Place { x, y, name }| {
        view! {
            <circle cx=x cy=y r=PITCH / 2 - 3/>
            <text x=x y=y + 4>{name}</text>
        }
        .into_any()
    });
    view! {
        <svg viewBox=format!("0 0 {width} {height}") width=width height=height>{shapes.collect_view()}</svg>
    }
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
