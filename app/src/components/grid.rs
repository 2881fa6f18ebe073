//! Arrow keys on a wear map: a table of buttons is one stop of the Tab key, and the arrows go from cell
//! to cell, down from one table of the map into the next.
//!
//! It works on what stands on the page, so that the same keys serve the map that the app makes and the
//! one that comes as markup. On the map of a section the Bench has its own: there the pad goes along.

use leptos::ev::KeyboardEvent;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, NodeList};

/// The cells of a row.
const CELLS: &str = ".cell";
/// The rows of a map, through all its tables.
const ROWS: &str = ".map tbody tr";

/// What a key means on a map.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step {
    Along(isize),
    Rows(isize),
    First,
    Last,
}

fn step(key: &str) -> Option<Step> {
    Some(match key {
        "ArrowLeft" => Step::Along(-1),
        "ArrowRight" => Step::Along(1),
        "ArrowUp" => Step::Rows(-1),
        "ArrowDown" => Step::Rows(1),
        "Home" => Step::First,
        "End" => Step::Last,
        _ => return None,
    })
}

/// Goes from the cell that has the keyboard to the one that an arrow leads to. A key pressed anywhere
/// else is none of ours.
pub fn arrows(event: &KeyboardEvent) {
    if event.ctrl_key() || event.alt_key() || event.meta_key() {
        return;
    }
    let cell = event
        .target()
        .and_then(|target| target.dyn_into::<Element>().ok())
        .filter(|target| target.matches(".overview .cell").unwrap_or(false));
    if let Some((cell, step)) = cell.zip(step(&event.key())) {
        event.prevent_default();
        if let Some(to) = target(&cell, step) {
            hand_over(&to);
        }
    }
}

/// The cell that a step leads to; none beyond the edge of the map.
fn target(cell: &Element, step: Step) -> Option<Element> {
    let row = cell.closest("tr").ok()??;
    let along = all(&row, CELLS)?;
    let column = place(&along, cell)?;
    match step {
        Step::Along(by) => at(&along, column.checked_add_signed(by)?),
        Step::First => at(&along, 0),
        Step::Last => at(&along, along.len().checked_sub(1)?),
        Step::Rows(by) => {
            let map = cell.closest(".overview").ok()??;
            let rows = all(&map, ROWS)?;
            let other = at(&rows, place(&rows, &row)?.checked_add_signed(by)?)?;
            let along = all(&other, CELLS)?;
            at(&along, column.min(along.len().checked_sub(1)?))
        }
    }
}

/// Moves the keyboard, and with it the place at which the Tab key comes into that table.
fn hand_over(to: &Element) {
    if let Ok(Some(table)) = to.closest("table")
        && let Ok(Some(stop)) = table.query_selector("[tabindex='0']")
    {
        let _left = stop.set_attribute("tabindex", "-1");
    }
    let _stop = to.set_attribute("tabindex", "0");
    if let Some(to) = to.dyn_ref::<HtmlElement>() {
        // What cannot take the keyboard leaves it where it is.
        let _focused = to.focus();
    }
}

fn all(within: &Element, selector: &str) -> Option<Vec<Element>> {
    let found: NodeList = within.query_selector_all(selector).ok()?;
    let found = (0..found.length()).filter_map(|n| found.get(n)?.dyn_into().ok());
    Some(found.collect())
}

fn place(all: &[Element], one: &Element) -> Option<usize> {
    all.iter().position(|other| other == one)
}

fn at(all: &[Element], place: usize) -> Option<Element> {
    all.get(place).cloned()
}
