//! The card under another plan: the scores beside its own, and moving it there.

use leptos::prelude::*;
use ringland_assess::rescore::rescore;
use ringland_card::{Body, Depth};
use ringland_report::plan::under::under;

use crate::{
    app::announce,
    components::{
        act::{press, text},
        live::live,
    },
    platform::focus,
    store::{
        open::{Open, refusal},
        prefs::use_words,
        use_card, use_plans,
    },
};

/// Plans to choose from, whose scores stand beside the card's own.
#[component]
pub fn Under(
    /// The plan that the card was moved to last, as long as that is news.
    moved: RwSignal<Option<String>>,
) -> impl IntoView {
    let (store, plans, words) = (use_card(), use_plans(), use_words());
    // Counted from 1: 0 is none.
    let chosen = RwSignal::new(0_usize);
    let refused = RwSignal::new(None::<String>);
    let offered = move || {
        let plan = store.peek(|open: &Open| open.card.plan().clone());
        plan.map_or_else(Vec::new, |plan| plans.others(&plan))
    };
    let plan = move || {
        let place = chosen.get().checked_sub(1)?;
        offered().into_iter().nth(place)
    };
    let table = move || {
        let plan = plan()?;
        let markup = store.whole(|open| {
            let rescored = rescore(&open.card, &open.tree, &open.result, &plan);
            under(&open.card, &open.result, (&plan, &rescored), words)
        })?;
        Some(view! { <div inner_html=markup></div> }.into_any())
    };
    let options = move || {
        let named = (1_usize..).zip(offered());
        let named = named.map(|(place, plan)| {
            let name = words.plans.version_said(&plan.name, &plan.version);
            let depth = match plan.depth {
                Depth::Full => words.facts.full,
                Depth::Short => words.facts.short,
            };
            view! { <option value=place.to_string()>{format!("{name} · {depth}")}</option> }
                .into_any()
        });
        named.collect_view()
    };
    let move_there = move || {
        let Some(plan) = plan() else { return };
        let name = words.plans.version_said(&plan.name, &plan.version);
        store.after(move || async move {
            let body = Body::Plan {
                plan: Box::new(plan.clone()),
            };
            match store.keep(vec![body.into()]).await {
                Ok(()) => {
                    let said = words.plans.moved(&name);
                    announce(&said);
                    moved.set(Some(said));
                    focus("undo-move");
                }
                Err(why) => refused.set(Some(refusal(words, &plan, &why))),
            }
        });
    };
    let acts = move || {
        (chosen.get() > 0 && !store.read_only()).then(|| view! {
            <div class="under__acts">
                <button type="button" class="button" on:click=press(move_there)>{words.plans.move_card}</button>
                <p class="fine">{words.plans.move_hint}</p>
                <p class="plan-why" role="alert">{live(move || refused.get())}</p>
            </div>
        }.into_any())
    };
    view! {
        <section class="block under">
            <h2>{words.plans.under}</h2>
            <p class="fine block__hint">{words.plans.under_hint}</p>
            <select class="field__input under__choice" aria-label=words.plans.under
                on:change=text(move |place| chosen.set(place.parse().unwrap_or_default()))>
                <option value="">{words.plans.under_choose}</option>
                {live(options)}
            </select>
            {live(table)}
            {live(acts)}
        </section>
    }
}

/// That the card was moved, with the way back.
#[component]
pub fn Moved(
    /// What is said.
    moved: RwSignal<Option<String>>,
) -> impl IntoView {
    let (store, words) = (use_card(), use_words());
    let undo = move || {
        store.after(move || async move {
            let plan = store.peek(|open: &Open| open.card.plan().clone());
            let done = store.undo(words.plans.undo).await;
            if let (Err(why), Some(plan)) = (done, plan) {
                moved.set(Some(refusal(words, &plan, &why)));
            } else {
                announce(words.plans.moved_back);
                moved.set(None);
            }
        });
    };
    live(move || {
        moved.get().map(|said| view! {
        <div class="notice">
            <p class="notice__text">{said}</p>
            <button type="button" class="button" id="undo-move" on:click=press(undo)>{words.plans.undo}</button>
            <button type="button" class="button button--quiet" on:click=press(move || moved.set(None))>
                {words.common.close}
            </button>
        </div>
    }.into_any())
    })
}
