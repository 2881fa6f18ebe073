//! A new plan: what it is derived from, for which layout, and what it is called.

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{Depth, Layout, Plan, builtin, plan::LONGEST_LABEL};

use crate::{
    app::go,
    components::{
        act::{send, text},
        choice::{Choice, Offer},
        live::live,
    },
    pages::new_engine::LayoutGroup,
    platform::focus,
    route::Route,
    store::{plans::OwnPlan, prefs::use_words, use_plans},
};

const NAME: &str = "new-plan-name";

/// The form.
#[component]
pub fn NewPlan() -> impl IntoView {
    let (plans, words) = (use_plans(), use_words());
    let layout = RwSignal::new(Layout::inline_six());
    let parent = RwSignal::new(0_usize);
    let name = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let offers = move || {
        let built_in = [words.plans.built_in_full, words.plans.built_in_short];
        let own = plans.all().into_iter();
        let own = own.map(|own| {
            let plan = own.plan();
            Offer::plain(words.plans.version_said(&plan.name, &plan.version))
        });
        built_in
            .into_iter()
            .map(Offer::plain)
            .chain(own)
            .collect::<Vec<_>>()
    };
    let chosen = move || -> Result<Plan, String> {
        let built_in = |depth| {
            let layout = layout.get_untracked();
            builtin(&layout, depth).map_err(|why| words.layout_error(&why))
        };
        match parent.get_untracked() {
            0 => built_in(Depth::Full),
            1 => built_in(Depth::Short),
            own => plans
                .all_now()
                .into_iter()
                .nth(own - 2)
                .map(|own| own.file.plan)
                .ok_or_else(|| words.plans.missing.to_owned()),
        }
    };
    let derive = move || {
        let called = name.with_untracked(|name| name.trim().to_owned());
        let length = called.chars().count();
        let made = match length {
            0 => Err(words.plans.no_name.to_owned()),
            _ if length > LONGEST_LABEL => Err(words.plans.too_long(length, LONGEST_LABEL)),
            _ => chosen().map(|parent| OwnPlan::derived(parent, &called)),
        };
        match made {
            Err(why) => {
                refused.set(Some(why));
                focus(NAME);
            }
            Ok(own) => spawn_local(async move {
                let id = own.id;
                match plans.keep(own, false).await {
                    Ok(()) => go(Route::Plan(id)),
                    Err(why) => refused.set(Some(why.said(words))),
                }
            }),
        }
    };
    view! {
        <form class="facts__form plans__new" on:submit=send(derive) novalidate aria-labelledby="new-plan">
            <h2 id="new-plan">{words.plans.new_plan}</h2>
            <fieldset class="facts__group depth">
                <legend class="facts__title">{words.plans.derive_from}</legend>
                {live(move || view! {
                    <Choice label=words.plans.derive_from name="parent" offers=offers() quiet=true
                        chosen=Signal::derive(move || parent.get()) choose=Callback::new(move |place| parent.set(place))/>
                })}
            </fieldset>
            {live(move || if parent.get() < 2 {
                view! { <LayoutGroup layout/> }.into_any()
            } else {
                view! { <p class="mute">{words.plans.layout_of_parent}</p> }.into_any()
            })}
            <fieldset class="facts__group">
                <legend class="facts__title">{words.plans.name}</legend>
                <input id=NAME class="field__input plans__name" type="text" autocomplete="off" aria-label=words.plans.name
                    aria-invalid=move || refused.get().is_some().then_some("true") aria-describedby="new-plan-why"
                    on:input=text(move |typed| name.set(typed))/>
                <p id="new-plan-why" class="plan-why" role="alert">{live(move || refused.get())}</p>
            </fieldset>
            <button type="submit" class="button button--act plans__derive">{words.plans.derive}</button>
        </form>
    }
}
