//! Who rates: asked once on a tablet, switched with one press.

use leptos::prelude::*;

use super::{super::state::Mode, use_bench};
use crate::{
    components::{
        act::{press, send},
        live::live,
    },
    store::{prefs::use_words, use_prefs},
};

/// The raters of this tablet, and one more.
#[component]
pub(super) fn RaterPad() -> impl IntoView {
    let (bench, prefs, words) = (use_bench(), use_prefs(), use_words());
    let field = NodeRef::<leptos::html::Input>::new();
    let choose = move |name: &str| {
        prefs.set_rater(name);
        bench.refused.set(None);
        bench.mode.set(Mode::Rate);
    };
    let submit = move || {
        let name = field
            .get_untracked()
            .map(|field| field.value())
            .unwrap_or_default();
        if !name.trim().is_empty() {
            choose(&name);
        }
    };
    view! {
        <h3 class="pad__side">{words.pad.who_rates}</h3>
        <div class="choices" role="group" aria-label=words.pad.who_rates>
            {live(move || prefs.raters().into_iter().map(|name| {
                let (mine, shown) = (name.clone(), name.clone());
                view! {
                    <button type="button" class="button choice"
                        aria-pressed=move || (prefs.rater() == mine).to_string()
                        on:click=press(move || choose(&name))>{shown}</button>
                }
                .into_any()
            }).collect_view())}
        </div>
        <button type="button" class="button choice" id="blind" aria-pressed=move || prefs.rates_blind().to_string()
            aria-describedby="blind-hint" on:click=press(move || prefs.set_blind(!prefs.rates_blind()))>{words.pad.blind}</button>
        <p class="fine" id="blind-hint">{words.pad.blind_hint}</p>
        <form class="remark" on:submit=send(submit)>
            <label class="field">
                <span class="field__label">{words.pad.rater_name}</span>
                <input id="rater-name" class="field__input" node_ref=field maxlength="200" autocomplete="off"/>
            </label>
            <button type="submit" class="button button--act">{words.pad.rater_take}</button>
        </form>
    }
}
