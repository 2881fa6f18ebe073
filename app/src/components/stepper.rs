//! A small whole number with a button to either side: for gloves, and for keys as any number field.

use std::ops::RangeInclusive;

use leptos::prelude::*;

use super::act::{press, text};

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
    /// What it may be.
    range: Signal<(RangeInclusive<u8>, u8)>,
    /// What it is.
    value: Signal<u8>,
    /// Sets it.
    set: Callback<u8>,
) -> impl IntoView {
    let field = NodeRef::<leptos::html::Input>::new();
    let to = move |number: u8| {
        let (range, step) = range.get_untracked();
        if range.contains(&number) && (number - range.start()).is_multiple_of(step) {
            set.run(number);
        }
    };
    let typed = move |text: String| {
        if let Ok(number) = text.trim().parse() {
            to(number);
        }
        if let Some(field) = field.get_untracked() {
            field.set_value(&value.get_untracked().to_string());
        }
    };
    let step = move || range.with(|(_, step)| *step);
    let down = move || to(value.get_untracked().saturating_sub(step()));
    let up = move || to(value.get_untracked().saturating_add(step()));
    let at_least = move || range.with(|(range, _)| value.get() <= *range.start());
    let at_most = move || range.with(|(range, _)| value.get() >= *range.end());
    let name = label.clone();
    view! {
        <div class="stepper" role="group" aria-label=name>
            <label class="field__label" for=id>{label}</label>
            <div class="stepper__row">
                <button type="button" class="button stepper__step" aria-label=fewer disabled=at_least on:click=press(down)>"−"</button>
                <input id=id class="field__input stepper__value num" inputmode="numeric" autocomplete="off"
                    node_ref=field prop:value=move || value.get().to_string() on:change=text(typed)/>
                <button type="button" class="button stepper__step" aria-label=more disabled=at_most on:click=press(up)>"+"</button>
            </div>
        </div>
    }
}
