//! The keyboard: the whole job without a finger on the screen.
//!
//! | key | does |
//! |---|---|
//! | 0 to 5 | grade none to severe; with Shift the half step above |
//! | 1 to 9 | the state in that place |
//! | digits, comma or point, then Enter | percent or count |
//! | arrows | go without rating |
//! | Enter | next open place |
//! | s, w | same as the last; whole row alike |
//! | n, c, r, h | not inspected, cause, remark, history |
//! | u, y | undo, redo |
//! | / | find a part |
//! | Escape | back to rating; from there to the whole engine |

use leptos::{ev::KeyboardEvent, prelude::*};
use ringland_card::{Grade, Look, Scale, plan::LeafId};
use wasm_bindgen::JsCast;
use web_sys::{HtmlFormElement, HtmlInputElement};

use super::{
    pad::keys_are_free,
    state::{Bench, Mode},
};

/// Listens to the keyboard while the Bench is open.
pub(super) fn listen(bench: Bench) {
    let handle = window_event_listener(leptos::ev::keydown, move |event| {
        if event.ctrl_key() || event.alt_key() || event.meta_key() {
            return;
        }
        if event.key() == "Escape" {
            back(bench);
            return;
        }
        // While a look is being kept, keys wait their turn: quick typing never lands on the last pad.
        if (keys_are_free() || bench.store.busy()) && takes(bench, &event) {
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
    // Enter on a button presses the button.
    if key == "Enter" && on_a_button() && !bench.store.busy() {
        return false;
    }
    let Some(act) = act(event, &key) else {
        return false;
    };
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
        // Typed ahead of the screen like the digits around it, or 1,5 would be read as 15.
        "," => Box::new(|_| write_sign(",")),
        "." => Box::new(|_| write_sign(".")),
        "ArrowLeft" => Box::new(|bench| bench.go(-1, 0)),
        "ArrowRight" => Box::new(|bench| bench.go(1, 0)),
        "ArrowUp" => Box::new(|bench| bench.go(0, -1)),
        "ArrowDown" => Box::new(|bench| bench.go(0, 1)),
        "Enter" => Box::new(enter),
        "Backspace" => Box::new(Bench::go_back),
        "s" => on_leaf(Bench::same_as_last),
        "w" => on_leaf(Bench::row_alike),
        "n" => Box::new(|bench| bench.mode.set(Mode::NotInspected)),
        "c" => Box::new(|bench| bench.mode.set(Mode::Cause)),
        "r" => Box::new(|bench| bench.mode.set(Mode::Remark)),
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
    let digit = code
        .strip_prefix("Digit")
        .or_else(|| code.strip_prefix("Numpad"))?;
    digit.parse().ok()
}

fn press_digit(bench: Bench, digit: usize, half: bool) {
    let Some(leaf) = bench.leaf.get_untracked() else {
        return;
    };
    if let Some(field) = figure_field() {
        // A digit for a figure goes into its field, where it can be seen and mended.
        write(&field, &digit.to_string());
        return;
    }
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

/// Writes a decimal sign where there is a figure to write it into.
fn write_sign(sign: &str) {
    if let Some(field) = figure_field() {
        write(&field, sign);
    }
}

/// The field on the pad that takes figures: the one being written in, else the first.
fn figure_field() -> Option<HtmlInputElement> {
    let writing = document()
        .active_element()
        .filter(|element| element.has_attribute("data-figure"));
    let first = || {
        document()
            .query_selector(".pad [data-figure]")
            .ok()
            .flatten()
    };
    writing.or_else(first)?.dyn_into().ok()
}

/// Writes as the browser would: after what is being written, over what only stands there.
fn write(field: &HtmlInputElement, text: &str) {
    let being_written = document().active_element().as_ref() == Some(field.as_ref());
    let before = if being_written {
        field.value()
    } else {
        String::new()
    };
    let _focused = field.focus();
    field.set_value(&format!("{before}{text}"));
    // A value set by a program does not say that it changed.
    if let Ok(changed) = web_sys::Event::new("change") {
        let _heard = field.dispatch_event(&changed);
    }
}

/// Keeps the figure that was typed, or goes on where there is none.
fn enter(bench: Bench) {
    let field = document()
        .active_element()
        .filter(|element| element.has_attribute("data-figure"));
    match field.and_then(|field| field.closest("form").ok().flatten()) {
        Some(form) => {
            let _submitted = form.unchecked_into::<HtmlFormElement>().request_submit();
        }
        None => bench.go_on(),
    }
}

fn on_a_button() -> bool {
    document()
        .active_element()
        .is_some_and(|element| element.tag_name() == "BUTTON")
}

fn focus(id: &str) -> bool {
    match document().get_element_by_id(id) {
        Some(field) => field
            .unchecked_into::<web_sys::HtmlElement>()
            .focus()
            .is_ok(),
        None => false,
    }
}
