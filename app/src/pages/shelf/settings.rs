//! What is set on this tablet: light or dark, units each by itself, who rates.

use leptos::{ev::SubmitEvent, prelude::*};
use ringland_report::format::{DistanceUnit, LengthUnit, TemperatureUnit, UnitPrefs, VolumeUnit};

use crate::{
    components::choice::{Choice, Offer},
    store::{
        prefs::{Theme, use_words},
        use_prefs,
    },
};

/// The settings.
#[component]
pub fn Settings() -> impl IntoView {
    let words = use_words();
    view! {
        <section class="panel" aria-labelledby="settings-title">
            <h2 class="panel__title" id="settings-title">{words.common.settings}</h2>
            <div class="settings">
                <ThemeChoice/>
                <UnitChoices/>
            </div>
            <p class="fine">{words.units.hint}</p>
            <Raters/>
        </section>
    }
}

#[component]
fn ThemeChoice() -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let options = vec![
        Offer::plain(Theme::Auto, words.common.as_tablet),
        Offer::plain(Theme::Light, words.common.light),
        Offer::plain(Theme::Dark, words.common.dark),
    ];
    view! {
        <Choice label=words.common.theme name="theme" options chosen=Signal::derive(move || prefs.theme())
            choose=Callback::new(move |theme| prefs.set_theme(theme))/>
    }
}

#[component]
fn UnitChoices() -> impl IntoView {
    let units = &use_words().units;
    view! {
        <UnitChoice label=units.distance name="unit-distance"
            options=[(DistanceUnit::Kilometre, units.kilometres), (DistanceUnit::Mile, units.miles)]
            get=|units| units.distance set=|units, unit| units.distance = unit/>
        <UnitChoice label=units.volume name="unit-volume"
            options=[(VolumeUnit::Litre, units.litres), (VolumeUnit::UsGallon, units.us_gallons)]
            get=|units| units.volume set=|units, unit| units.volume = unit/>
        <UnitChoice label=units.length name="unit-length"
            options=[(LengthUnit::Millimetre, units.millimetres), (LengthUnit::Inch, units.inches)]
            get=|units| units.length set=|units, unit| units.length = unit/>
        <UnitChoice label=units.temperature name="unit-temperature"
            options=[(TemperatureUnit::Celsius, units.celsius), (TemperatureUnit::Fahrenheit, units.fahrenheit)]
            get=|units| units.temperature set=|units, unit| units.temperature = unit/>
    }
}

#[component]
fn UnitChoice<T>(
    label: &'static str,
    name: &'static str,
    options: [(T, &'static str); 2],
    get: fn(UnitPrefs) -> T,
    set: fn(&mut UnitPrefs, T),
) -> impl IntoView
where
    T: Copy + PartialEq + Send + Sync + 'static,
{
    let prefs = use_prefs();
    let options = options.map(|(unit, name)| Offer::plain(unit, name)).into();
    let choose = Callback::new(move |unit| {
        let mut units = prefs.units();
        set(&mut units, unit);
        prefs.set_units(units);
    });
    view! { <Choice label name options chosen=Signal::derive(move || get(prefs.units())) choose/> }
}

/// Who rates on this tablet: one of them now, and their names.
#[component]
fn Raters() -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let field = NodeRef::<leptos::html::Input>::new();
    let add = move |event: SubmitEvent| {
        event.prevent_default();
        if let Some(field) = field.get_untracked() {
            prefs.set_rater(&field.value());
            field.set_value("");
        }
    };
    let lines = move || {
        prefs
            .raters()
            .into_iter()
            .map(|name| view! { <Rater name/> })
            .collect_view()
    };
    view! {
        <h3 class="panel__side">{words.pad.raters}</h3>
        <ul class="raters">{lines}</ul>
        <form class="raters__add" on:submit=add>
            <label class="field">
                <span class="field__label">{words.pad.rater_name}</span>
                <input class="field__input" node_ref=field maxlength="200" autocomplete="off"/>
            </label>
            <button type="submit" class="button">{words.pad.rater_take}</button>
        </form>
    }
}

#[component]
fn Rater(name: String) -> impl IntoView {
    let (prefs, words) = (use_prefs(), use_words());
    let (mine, set, gone) = (name.clone(), name.clone(), name.clone());
    let on = move || prefs.rater() == mine;
    view! {
        <li class="raters__line">
            <button type="button" class="button raters__name" aria-pressed=move || on().to_string()
                on:click=move |_| prefs.set_rater(&set)>{name.clone()}</button>
            <button type="button" class="button button--quiet" aria-label=words.shelf.forget(&name)
                on:click=move |_| prefs.forget_rater(&gone)>{words.shelf.forget_short}</button>
        </li>
    }
}
