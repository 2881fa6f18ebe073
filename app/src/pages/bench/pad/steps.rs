//! Pads of one press: grades and states.

use leptos::prelude::*;
use ringland_card::{Grade, Look, Scale, plan::LeafId};
use ringland_report::{
    help::Topic,
    swatch::{self, Surface},
};

use super::{PadHelp, keep, use_bench};
use crate::{
    components::act::press,
    store::{open::Open, prefs::use_words, use_card},
};

/// The ladder of grades: whole grades with their swatches, the half steps between them.
#[component]
pub(super) fn GradePad(leaf: LeafId) -> impl IntoView {
    let words = use_words();
    let surface = use_card().peek(|open| surface(open, leaf)).flatten();
    let picture = move |grade| surface.map(|surface| swatch::grade_on(surface, grade, None));
    view! {
        <div class="ladder" role="group" aria-labelledby="pad-title">
            {Grade::WHOLE.into_iter().map(|grade| view! { <GradeButton leaf grade picture=picture(grade)/> }).collect_view()}
            {Grade::ALL.into_iter().skip(1).step_by(2).map(|grade| view! { <GradeButton leaf grade picture=None/> }).collect_view()}
        </div>
        <p class="fine pad__keys">{words.pad.grade_keys}" · "<PadHelp leaf topic=Topic::Grades/></p>
    }
}

/// What to draw the grades of a leaf on.
fn surface(open: &Open, leaf: LeafId) -> Option<Surface> {
    let (plan, leaf) = (open.card.plan(), open.card.index().leaf(leaf)?);
    let place = leaf.place(plan).id.as_str();
    Surface::of(place, leaf.characteristic(plan).id.as_str())
}

#[component]
fn GradeButton(leaf: LeafId, grade: Grade, picture: Option<String>) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let on = move || {
        let _changed = store.position(node, |_| ());
        bench
            .mine(leaf)
            .is_some_and(|(_, look)| look == Look::Grade(grade))
    };
    let whole = grade.half_steps().is_multiple_of(2);
    let class = format!(
        "ladder__step ladder__step--{} ladder__step--{}",
        if whole { "whole" } else { "half" },
        grade.half_steps()
    );
    let picture = picture.map(|picture| {
        view! { <span class="ladder__swatch" aria-hidden="true" inner_html=picture></span> }
            .into_any()
    });
    view! {
        <button type="button" class=class aria-pressed=move || on().to_string()
            data-grade=grade.as_str()
            on:click=press(move || keep(bench, leaf, Look::Grade(grade)))>
            {picture}
            <span>{words.grade(grade)}</span>
            {whole.then(|| view! { <kbd class="ladder__key" aria-hidden="true">{(grade.half_steps() / 2).to_string()}</kbd> }.into_any())}
        </button>
    }
}

/// The states of a scale, best first.
#[component]
pub(super) fn StatePad(leaf: LeafId, scale: Scale) -> impl IntoView {
    let (bench, store, words) = (use_bench(), use_card(), use_words());
    let Scale::State { states } = &scale else {
        return ().into_any();
    };
    let node = store
        .peek(|open| open.position_of(leaf))
        .unwrap_or_default();
    let buttons = (1..).zip(states).map(|(key, state)| {
        let (id, shown) = (state.id.clone(), state.id.clone());
        let on = move || {
            let _changed = store.position(node, |_| ());
            bench
                .mine(leaf)
                .is_some_and(|(_, look)| look == Look::State(shown.clone()))
        };
        let name = words.state(&scale, &state.id).to_owned();
        view! {
            <button type="button" class="states__one" aria-pressed=move || on().to_string()
                data-state=state.id.to_string()
                on:click=press(move || keep(bench, leaf, Look::State(id.clone())))>
                <span>{name}</span>
                <kbd class="ladder__key" aria-hidden="true">{key.to_string()}</kbd>
            </button>
        }
        .into_any()
    });
    view! { <div class="states" role="group" aria-labelledby="pad-title">{buttons.collect_view()}</div> }.into_any()
}
