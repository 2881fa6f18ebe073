//! The keyboard: the whole job without a finger on the screen.
//!
//! | key | does |
//! |---|---|
//! | 0 to 5 | grade none to severe; with Shift the half step above |
//! | 1 to 9 | the state in that place |
//! | digits, then Enter | percent or count |
//! | arrows | go without rating |
//! | Enter | next open place |
//! | s, r | same as the last; rest of the row alike |
//! | n, c, m, h | not inspected, cause, remark, history |
//! | u, y | undo, redo |
//! | / | find a part |
//! | Escape | back to rating; from there to the whole engine |

use leptos::{ev::KeyboardEvent, prelude::*};
use ringland_card::{Grade, Look, Scale, plan::LeafId};
use wasm_bindgen::JsCast;

use super::{
    pad::keys_are_free,
    state::{Bench, Mode},
};

/// Listens to the keyboard while the Bench is open.
pub fn listen(bench: Bench) {
    let handle = window_event_listener(leptos::ev::keydown, move |event| {
        if event.ctrl_key() || event.alt_key() || event.meta_key() {
            return;
        }
        if event.key() == "Escape" {
            back(bench);
            return;
        }
        if keys_are_free() && takes(bench, &event) {
            event.prevent_default();
        }
    });
    on_cleanup(move || handle.remove());
}

fn back(bench: Bench) {
    if let Some(field) = document().active_element() {
        let _left = field.unchecked_into::<web_sys::HtmlElement>().blur();
    }
    if bench.mode.get_untracked() == Mode::Rate {
        bench.whole_engine();
    } else {
        bench.mode.set(Mode::Rate);
    }
}

/// Whether the key means something here; if so it is done after whatever is still being kept, so
/// that quick typing never rates one place twice.
fn takes(bench: Bench, event: &KeyboardEvent) -> bool {
    let key = event.key();
    if key == "/" {
        return focus("find");
    }
    if bench.leaf.get_untracked().is_none() {
        return false;
    }
    // A digit for a figure goes on into the field, where it can be seen and mended.
    if digit(event).is_some() && wants_figure(bench) {
        focus("typed");
        return false;
    }
    // Enter on a button presses the button.
    if key == "Enter" && on_a_button() {
        return false;
    }
    let Some(act) = act(event, &key) else { return false };
    bench.store.after(move || async move { act(bench) });
    true
}

type Act = Box<dyn FnOnce(Bench)>;

fn act(event: &KeyboardEvent, key: &str) -> Option<Act> {
    if let Some(digit) = digit(event) {
        let half = event.shift_key();
        return Some(Box::new(move |bench| press_digit(bench, digit, half)));
    }
    let on_leaf = |then: fn(Bench, LeafId)| -> Act {
        Box::new(move |bench| {
            if let Some(leaf) = bench.leaf.get_untracked() {
                then(bench, leaf);
            }
        })
    };
    Some(match key {
        "ArrowLeft" => Box::new(|bench| bench.go(-1, 0)),
        "ArrowRight" => Box::new(|bench| bench.go(1, 0)),
        "ArrowUp" => Box::new(|bench| bench.go(0, -1)),
        "ArrowDown" => Box::new(|bench| bench.go(0, 1)),
        "Enter" => Box::new(Bench::go_on),
        "Backspace" => Box::new(Bench::go_back),
        "s" => on_leaf(Bench::same_as_last),
        "r" => on_leaf(Bench::row_alike),
        "n" => Box::new(|bench| bench.mode.set(Mode::NotInspected)),
        "c" => Box::new(|bench| bench.mode.set(Mode::Cause)),
        "m" => Box::new(|bench| bench.mode.set(Mode::Remark)),
        "h" => Box::new(|bench| bench.mode.set(Mode::History)),
        "u" => Box::new(Bench::undo),
        "y" => Box::new(Bench::redo),
        _ => return None,
    })
}

/// The digit of a key, on the row above the letters or on the block beside them; with Shift the
/// character is another one, so the key's place counts.
fn digit(event: &KeyboardEvent) -> Option<usize> {
    let code = event.code();
    let digit = code.strip_prefix("Digit").or_else(|| code.strip_prefix("Numpad"))?;
    digit.parse().ok()
}

fn press_digit(bench: Bench, digit: usize, half: bool) {
    let Some(leaf) = bench.leaf.get_untracked() else { return };
    let look = bench
        .scale_of(leaf, |scale| match scale {
            Scale::Grade { .. } => {
                Grade::from_half_steps(2 * digit + usize::from(half)).map(Look::Grade)
            }
            Scale::State { states } => {
                let state = states.get(digit.checked_sub(1)?)?;
                Some(Look::State(state.id.clone()))
            }
            _ => None,
        })
        .flatten();
    if let Some(look) = look {
        bench.rate(leaf, look);
    }
}

fn wants_figure(bench: Bench) -> bool {
    let scale = bench.leaf.get_untracked().and_then(|leaf| {
        bench.scale_of(leaf, |scale| matches!(scale, Scale::Extent { .. } | Scale::Count { .. }))
    });
    scale == Some(true) && bench.mode.get_untracked() == Mode::Rate
}

fn on_a_button() -> bool {
    document().active_element().is_some_and(|element| element.tag_name() == "BUTTON")
}

fn focus(id: &str) -> bool {
    match document().get_element_by_id(id) {
        Some(field) => field.unchecked_into::<web_sys::HtmlElement>().focus().is_ok(),
        None => false,
    }
}
