//! A small wear map: what the Shelf shows of an engine.

use std::fmt::Write;

use leptos::prelude::*;
use ringland_report::{markup::Html, ramp};

/// Width of the drawing, in its own units. Each row fills it, however many positions it has.
const WIDTH: usize = 120;
/// Height of a row.
const ROW: usize = 4;

/// The map of an engine: a row for each place from top end to bottom end, front to rear in each.
/// Nothing is told by it alone: the figures stand beside it, so it is hidden from a screen reader.
#[expect(
    clippy::needless_pass_by_value,
    reason = "a component owns its properties"
)]
#[component]
pub fn Thumb(
    /// A step of the ramp for each position, front to rear; none where it is not rated.
    rows: Vec<Vec<Option<u8>>>,
) -> impl IntoView {
    let height = rows.len().max(1) * ROW;
    view! {
        <svg class="thumb" viewBox=format!("0 0 {WIDTH} {height}") preserveAspectRatio="none"
            shape-rendering="crispEdges" aria-hidden="true" inner_html=drawn(&rows, height)></svg>
    }
}

/// The ground, the hatching over it, and the wear on top.
fn drawn(rows: &[Vec<Option<u8>>], height: usize) -> String {
    let (width, height) = (WIDTH.to_string(), height.to_string());
    let size = [("width", width.as_str()), ("height", height.as_str())];
    let mut html = Html::new();
    html.with("rect class=\"thumb__ground\"", &size)
        .close("rect");
    html.with("rect fill=\"url(#thumb-hatch)\"", &size)
        .close("rect");
    for (step, outline) in shapes(rows) {
        let class = format!("wear {}", ramp::step_class(step));
        html.with("path", &[("class", &class), ("d", &outline)])
            .close("path");
    }
    html.done()
}

/// The hatching of all maps on a page: it stands for what is not rated.
#[component]
pub fn ThumbHatch() -> impl IntoView {
    view! {
        <svg class="thumb__defs" width="0" height="0" aria-hidden="true">
            <defs>
                <pattern id="thumb-hatch" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                    <rect class="thumb__hatch" width="3" height="9"/>
                </pattern>
            </defs>
        </svg>
    }
}

/// The outline of everything at one step of the ramp, for each step that occurs.
fn shapes(rows: &[Vec<Option<u8>>]) -> Vec<(u8, String)> {
    let mut shapes: Vec<(u8, String)> = Vec::new();
    for (row, cells) in rows.iter().enumerate() {
        let edge = |cell: usize| cell * WIDTH / cells.len();
        for (cell, step) in cells.iter().enumerate() {
            let Some(step) = step else { continue };
            let (left, width, top) = (edge(cell), edge(cell + 1) - edge(cell), row * ROW);
            let place = shapes.partition_point(|(other, _)| other < step);
            if shapes.get(place).is_none_or(|(other, _)| other != step) {
                shapes.insert(place, (*step, String::new()));
            }
            // Writing to a text cannot fail.
            let _ = write!(shapes[place].1, "M{left} {top}h{width}v{ROW}h-{width}z");
        }
    }
    shapes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_fill_the_width_and_the_unrated_stay_empty() {
        let rows = [
            vec![Some(20), None, Some(3)],
            vec![Some(3)],
            vec![],
            vec![None],
        ];
        let drawn = shapes(&rows);
        assert_eq!(
            drawn,
            [
                (3, "M80 0h40v4h-40zM0 4h120v4h-120z".to_owned()),
                (20, "M0 0h40v4h-40z".to_owned()),
            ]
        );
    }

    #[test]
    fn rows_of_any_length_end_at_the_edge() {
        for positions in 1..=26 {
            let drawn = shapes(&[vec![Some(0); positions]]);
            let widths: usize = drawn[0]
                .1
                .split('h')
                .skip(1)
                .filter_map(|part| part.split('v').next()?.parse::<usize>().ok())
                .sum();
            assert_eq!(widths, WIDTH, "{positions}");
        }
    }
}
