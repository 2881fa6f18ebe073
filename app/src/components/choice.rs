//! One of a few: a row of large buttons that are radio buttons underneath, so that the arrow keys and
//! a screen reader know them.

use leptos::prelude::*;

/// One thing to choose: its value, its name, and a line about it that may be empty.
#[derive(Clone, Debug)]
pub struct Offer<T> {
    /// What is chosen by it.
    pub value: T,
    /// What it is called.
    pub name: String,
    /// What it means.
    pub hint: String,
}

impl<T> Offer<T> {
    /// A thing to choose that needs no explaining.
    pub fn plain(value: T, name: impl Into<String>) -> Self {
        Self {
            value,
            name: name.into(),
            hint: String::new(),
        }
    }
}

/// The choice. `name` must be the group's own on the page.
#[expect(
    clippy::needless_pass_by_value,
    reason = "a component owns its properties"
)]
#[component]
pub fn Choice<T>(
    /// What is chosen, for people.
    #[prop(into)]
    label: String,
    /// The name of the group, for the browser.
    #[prop(into)]
    name: String,
    /// What may be chosen, in order.
    options: Vec<Offer<T>>,
    /// What is chosen now.
    chosen: Signal<T>,
    /// Chooses.
    choose: Callback<T>,
    /// Whether the label is for a screen reader only, as beside a field that has one.
    #[prop(optional)]
    quiet: bool,
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let shown = if quiet {
        "visually-hidden"
    } else {
        "choice__label"
    };
    let said = label.clone();
    let buttons = options.into_iter().map(
        |Offer {
             value,
             name: shown,
             hint,
         }| {
            let on = move || chosen.get() == value;
            view! {
                <label class="choice__one">
                    <input type="radio" class="choice__radio" name=name.clone() prop:checked=on
                        on:change=move |_| choose.run(value)/>
                    <span class="choice__name">{shown}</span>
                    {(!hint.is_empty()).then(|| view! { <span class="choice__hint">{hint}</span> })}
                </label>
            }
        },
    );
    view! {
        <div class="choice" role="radiogroup" aria-label=said>
            <span class=shown aria-hidden="true">{label}</span>
            <div class="choice__row">{buttons.collect_view()}</div>
        </div>
    }
}
