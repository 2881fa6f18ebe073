//! One of a few: a row of large buttons that are radio buttons underneath, so that the arrow keys and
//! a screen reader know them.

use leptos::prelude::*;

/// One thing to choose: its name, and a line about it that may be empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// What it is called.
    pub name: String,
    /// What it means.
    pub hint: String,
}

impl Offer {
    /// A thing to choose that needs no explaining.
    pub fn plain(name: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            hint: String::new(),
        }
    }
}

/// The place of a value among those that may be chosen; the first where it is none of them.
pub fn place<T: PartialEq>(all: &[T], value: &T) -> usize {
    all.iter().position(|one| one == value).unwrap_or_default()
}

/// The choice. What is chosen is a place in the list: one code for every kind of value, as the app is
/// carried to a tablet whole.
#[component]
pub fn Choice(
    /// What is chosen, for people.
    #[prop(into)]
    label: String,
    /// The name of the group, for the browser: its own on the page.
    #[prop(into)]
    name: String,
    /// What may be chosen, in order.
    offers: Vec<Offer>,
    /// What is chosen now.
    chosen: Signal<usize>,
    /// Chooses.
    choose: Callback<usize>,
    /// Whether the label is for a screen reader only, as beside a field that has one.
    #[prop(optional)]
    quiet: bool,
) -> impl IntoView {
    let class = if quiet {
        "visually-hidden"
    } else {
        "choice__label"
    };
    let said = label.clone();
    let buttons = offers.into_iter().enumerate().map(move |(place, offer)| {
        view! {
            <label class="choice__one">
                <input type="radio" class="choice__radio" name=name.clone()
                    prop:checked=move || chosen.get() == place on:change=move |_| choose.run(place)/>
                <span class="choice__name">{offer.name}</span>
                {(!offer.hint.is_empty()).then(|| view! { <span class="choice__hint">{offer.hint}</span> }.into_any())}
            </label>
        }
        .into_any()
    });
    view! {
        <div class="choice" role="radiogroup" aria-label=said>
            <span class=class aria-hidden="true">{label}</span>
            <div class="choice__row">{buttons.collect_view()}</div>
        </div>
    }
}
