//! Who writes it down: every entry carries a name.

use leptos::prelude::*;

use crate::{
    components::{
        act::{press, text},
        live::live,
    },
    store::{Prefs, prefs::use_words, use_prefs},
};

/// The field's id on the page.
pub const ID: &str = "rater-name";

/// What the field holds: a `Copy` handle.
#[derive(Clone, Copy, Debug)]
pub struct RaterForm {
    name: RwSignal<String>,
    asked: RwSignal<bool>,
}

impl RaterForm {
    /// With who rates on this tablet now.
    pub fn new(prefs: Prefs) -> Self {
        Self {
            name: RwSignal::new(prefs.rater()),
            asked: RwSignal::new(false),
        }
    }

    /// Sets who rates on this tablet; whether there is a name to set.
    pub fn take(self, prefs: Prefs) -> bool {
        let name = self.name.get_untracked();
        let named = !name.trim().is_empty();
        self.asked.set(!named);
        if named {
            prefs.set_rater(&name);
        }
        named
    }
}

/// The field, with those who have rated on this tablet to choose from.
#[component]
pub fn RaterField(
    /// What the field holds.
    form: RaterForm,
) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let wrong = move || form.asked.get() && form.name.with(|name| name.trim().is_empty());
    let said = move || {
        if wrong() {
            words.facts.rater_needed
        } else {
            words.facts.rater_hint
        }
    };
    let known = move || {
        let others = prefs.raters().into_iter();
        others
            .map(|name| {
                let (mine, set) = (name.clone(), name.clone());
                let on = move || form.name.with(|now| now.trim() == mine);
                view! {
                    <button type="button" class="button" aria-pressed=move || on().to_string()
                        on:click=press(move || form.name.set(set.clone()))>{name}</button>
                }
                .into_any()
            })
            .collect_view()
    };
    view! {
        <fieldset class="facts__group">
            <legend class="facts__title">{words.facts.rater_group}</legend>
            <div class="field fact">
                <label class="field__label" for=ID>{words.facts.rater_name}</label>
                <input id=ID class="field__input" maxlength="200" autocomplete="off" aria-required="true"
                    aria-describedby="rater-said" aria-invalid=move || wrong().then_some("true")
                    prop:value=move || form.name.get() on:input=text(move |typed| form.name.set(typed))/>
                <p class="fact__said" class:field__wrong=wrong id="rater-said">{live(said)}</p>
            </div>
            <div class="facts__raters">{live(known)}</div>
        </fieldset>
    }
}
