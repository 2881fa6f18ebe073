//! Where on a page of markup a press or a change came from.

use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// The nearest element around what an event came from that a selector finds.
pub fn pressed(event: &Event, selector: &str) -> Option<Element> {
    let target = event.target()?.dyn_into::<Element>().ok()?;
    target.closest(selector).ok().flatten()
}
