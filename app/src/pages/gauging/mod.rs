//! Gauging: sizes typed by hand or by a gauge, held against the engine maker's.
//!
//! | what | where |
//! |---|---|
//! | what is on the screen, and what is kept | [`state`] |
//! | the fields: Enter, where the hand goes next, slips | [`fields`] |
//! | gauges | [`gauge`] |
//! | size sheets | [`sheet`] |
//! | tables pasted or opened | [`import`] |
//! | wear against distance, beside other engines | [`over_run`] |

mod fields;
mod gauge;
mod import;
mod over_run;
mod sheet;
mod state;

use leptos::{ev::MouseEvent, html, prelude::*};
use ringland_card::{gauging::Unit, plan::LeafId};
use wasm_bindgen::JsCast;
use web_sys::{Element, ScrollIntoViewOptions, ScrollLogicalPosition};

use self::{
    gauge::GaugeChoice,
    state::{Gauging, provide_gauging},
};
use crate::{
    components::{
        act::{Act, press, text},
        choice::{Choice, Offer},
        live::live,
    },
    pages::{bench::Cautions, card::outlook::Outlook},
    route::Route,
    store::{prefs::use_words, use_card},
};

/// The screen.
#[component]
pub fn GaugingPage() -> impl IntoView {
    let (page, store, words) = (provide_gauging(), use_card(), use_words());
    let asked = Route::leaf_asked(&window().location().hash().unwrap_or_default());
    if let Some(leaf) = asked {
        page.open(leaf);
    } else {
        page.open_first();
    }
    let altered = store.read_only();
    // From one kind to the next only what differs is made anew.
    let none = Memo::new(move |_| page.kind.get().is_none());
    view! {
        <h1 class="visually-hidden">{words.gauging.title}</h1>
        <div class="gauging">
            <aside class="gauging__kinds">
                <Progress page/>
                <Kinds page/>
            </aside>
            <section class="gauging__work" aria-label=words.gauging.title>
                {altered.then(|| view! { <p class="trouble" role="alert">{words.bench.altered}</p> }.into_any())}
                {live(move || none.get().then(|| view! {
                    <div class="trouble"><p><b>{words.gauging.nothing_asked}</b></p><p>{words.gauging.nothing_asked_hint}</p></div>
                }.into_any()))}
                {live(move || (!none.get()).then(|| view! { <Work page/> }))}
            </section>
        </div>
    }
}

/// How many sizes have been measured.
#[component]
fn Progress(page: Gauging) -> impl IntoView {
    let words = use_words();
    let said = move || {
        let (done, all) = page.progress();
        words.gauging.measured_n(done, all)
    };
    view! {
        <div class="gauging__state">
            <p class="num" id="gauged">{said}</p>
            <p class="fine num" id="kept" aria-live="off">{live(move || page.kept_said())}</p>
        </div>
    }
}

/// The kinds of size, by section.
#[component]
fn Kinds(page: Gauging) -> impl IntoView {
    let words = use_words();
    let place = NodeRef::<html::Nav>::new();
    // Most readings change nothing here; and scrolling to the chosen one makes the browser lay the page out.
    let list = Memo::new(move |_| page.list());
    Effect::new(move |shown: Option<Option<LeafId>>| {
        let place = place.get()?;
        list.with(|list| place.set_inner_html(list));
        let chosen = page.kind.get();
        if shown.flatten() != chosen {
            show_chosen(&place);
        }
        chosen
    });
    let pressed: Act<MouseEvent> = Box::new(move |event| {
        let target = event.target().and_then(|it| it.dyn_into::<Element>().ok());
        let button = target.and_then(|target| target.closest("[data-kind]").ok().flatten());
        let leaf = button.and_then(|button| button.get_attribute("data-kind")?.parse().ok());
        if let Some(leaf) = leaf {
            page.open(LeafId(leaf));
        }
    });
    view! { <nav class="kinds" node_ref=place aria-label=words.gauging.parts on:click=pressed></nav> }
}

/// Scrolls the list so far that the chosen kind is seen.
fn show_chosen(place: &Element) {
    if let Ok(Some(chosen)) = place.query_selector("[aria-current=true]") {
        let nearest = ScrollIntoViewOptions::new();
        nearest.set_block(ScrollLogicalPosition::Nearest);
        chosen.scroll_into_view_with_scroll_into_view_options(&nearest);
    }
}

/// One kind of size: how it is read, what it is held against, the fields.
#[component]
fn Work(page: Gauging) -> impl IntoView {
    let words = use_words();
    let sheet_open = Memo::new(move |_| page.sheet_open.get());
    view! {
        <div class="gauging__head">
            <h2 class="gauging__title" id="kind-title">{live(move || page.title())}</h2>
            <p class="fine">{live(move || page.hint())}</p>
            <div class="gauging__limits">
                <p class="limits">{live(move || { let limits = page.limits(); view! { <span inner_html=limits></span> }.into_any() })}</p>
                <button type="button" class="button" id="sheet" aria-expanded=move || sheet_open.get().to_string()
                    on:click=press(move || page.sheet_open.update(|open| *open = !*open))>
                    {live(move || if sheet_open.get() { words.gauging.back_to_readings } else { words.gauging.sheet })}
                </button>
            </div>
        </div>
        {live(move || if sheet_open.get() {
            view! { <sheet::Sheets page/> }.into_any()
        } else {
            view! { <Readings page/> }.into_any()
        })}
    }
}

/// The fields with what belongs to every reading.
#[component]
fn Readings(page: Gauging) -> impl IntoView {
    let words = use_words();
    let g = &words.gauging;
    let units = move || {
        let quantity = page.unit().quantity();
        Unit::ALL
            .into_iter()
            .filter(|unit| unit.quantity() == quantity)
            .map(|unit| {
                view! {
                    <option value=unit.as_str() selected=unit == page.unit()>{unit.sign()}</option>
                }
                .into_any()
            })
            .collect_view()
    };
    let states = vec![Offer::plain(g.worn_part), Offer::plain(g.new_part)];
    let orders = vec![Offer::plain(g.by_part), Offer::plain(g.by_row)];
    let state = Signal::derive(move || usize::from(page.eyes.as_new.get()));
    let order = Signal::derive(move || usize::from(page.by_row.get()));
    let section = move || page.section();
    view! {
        {live(move || section().map(|section| view! { <Cautions section=Some(section)/> }))}
        <div class="gauging__with">
            <GaugeChoice page/>
            <label class="field gauging__unit">
                <span class="field__label">{g.unit}</span>
                <select class="field__input" id="unit" on:change=text(move |unit| page.choose_unit(Unit::parse(&unit)))>{live(units)}</select>
            </label>
            <label class="field gauging__warmth">
                <span class="field__label">{g.warmth}</span>
                <span class="fact__row">
                    <input class="field__input num" id="warmth" inputmode="decimal" autocomplete="off"
                        prop:value=move || page.warmth.get() on:input=text(move |typed| page.warmth.set(typed))
                        aria-invalid=move || page.warmth_c().is_err().to_string()/>
                    <span class="fact__unit">{page.warmth_unit()}</span>
                </span>
            </label>
            <Choice label=g.when name="state" offers=states chosen=state
                choose=Callback::new(move |place| page.show_new(place == 1))/>
            <Choice label=g.order name="order" offers=orders chosen=order
                choose=Callback::new(move |place| page.by_row.set(place == 1))/>
            {live(move || page.has_heights().then(|| view! {
                <button type="button" class="button" id="more-heights" on:click=press(move || page.add_height())>{use_words().gauging.more_heights}</button>
            }.into_any()))}
        </div>
        <fields::Asked page/>
        <fields::Boxes page/>
        <div class="gauging__plots">{live(move || { let plots = page.plots(); view! { <div inner_html=plots></div> }.into_any() })}</div>
        <Outlook at_once=false/>
        <over_run::OverRun page/>
        <import::Import page/>
        <p class="fine caution__reuse">{words.cautions.reuse}</p>
    }
}
