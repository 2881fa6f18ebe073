//! What a person does on the page, handed to what is to be done.
//!
//! As with [`live`](super::live::live): one type for every press, one for all text, one for every form, so that
//! the code that listens to them is in the app once.

use leptos::{
    ev::{Event, MouseEvent, SubmitEvent},
    prelude::*,
};

/// What is done when something happens.
pub type Act<E> = Box<dyn FnMut(E)>;

/// A press, of a finger or a key: `on:click`.
pub fn press(mut act: impl FnMut() + 'static) -> Act<MouseEvent> {
    Box::new(move |_| act())
}

/// What now stands in a field: `on:input`, or `on:change` once the field is left.
pub fn text(mut take: impl FnMut(String) + 'static) -> Act<Event> {
    Box::new(move |event| take(event_target_value(&event)))
}

/// A form that is sent: `on:submit`. It goes nowhere but to us.
pub fn send(mut act: impl FnMut() + 'static) -> Act<SubmitEvent> {
    Box::new(move |event| {
        event.prevent_default();
        act();
    })
}
