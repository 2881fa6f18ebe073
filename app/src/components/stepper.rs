//! A small whole number with a button to either side: for gloves, and for keys as any number field.

use std::ops::RangeInclusive;

use leptos::prelude::*;

use super::act::{press, text};

/// A number, and what it may be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Number {
    /// What it is.
    pub value: u8,
    /// What it may be.
    pub range: RangeInclusive<u8>,
    /// From one that it may be to the next.
    pub step: u8,
}

/// The field. What is typed beyond the range is put back.
#[component]
pub fn Stepper(
    /// What is counted, for people.
    #[prop(into)]
    label: String,
    /// The field's id on the page.
    id: &'static str,
    /// The name of the button that takes away.
    fewer: String,
    /// The name of the button that adds.
    more: String,
    /// What it is, and may be.
    number: Signal<Number>,
    /// Sets it.
    set: Callback<u8>,
) -> impl IntoView {
    let field = NodeRef::<leptos::html::Input>::new();
    let to = move |value: u8| {
        let Number { range, step, .. } = number.get_untracked();
        if range.contains(&value) && (value - range.start()).is_multiple_of(step) {
            set.run(value);
        }
    };
    let typed = move |text: String| {
        if let Ok(value) = text.trim().parse() {
            to(value);
        }
        if let Some(field) = field.get_untracked() {
            field.set_value(&number.get_untracked().value.to_string());
        }
    };
    let down = move || {
        let Number { value, step, .. } = number.get_untracked();
        to(value.saturating_sub(step));
    };
    let up = move || {
        let Number { value, step, .. } = number.get_untracked();
        to(value.saturating_add(step));
    };
    let at_least = move || number.with(|number| number.value <= *number.range.start());
    let at_most = move || number.with(|number| number.value >= *number.range.end());
    let name = label.clone();
    view! {
        <div class="stepper" role="group" aria-label=name>
            <label class="field__label" for=id>{label}</label>
            <div class="stepper__row">
                <button type="button" class="button stepper__step" aria-label=fewer disabled=at_least on:click=press(down)>"−"</button>
                <input id=id class="field__input stepper__value num" inputmode="numeric" autocomplete="off"
                    node_ref=field prop:value=move || number.get().value.to_string() on:change=text(typed)/>
                <button type="button" class="button stepper__step" aria-label=more disabled=at_most on:click=press(up)>"+"</button>
            </div>
        </div>
    }
}
