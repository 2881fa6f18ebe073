//! Gauges: which one the next readings are taken with, and a new one.

use leptos::prelude::*;
use ringland_card::{
    Body, GaugeId, Timestamp,
    gauging::{Gauge, Material, Unit},
};
use ringland_report::{
    format::{parse_decimal, parse_number},
    words::capitalised,
};

use super::state::Gauging;
use crate::{
    components::{
        act::{press, text},
        live::live,
    },
    platform,
    store::{
        open::{Draft, refusal},
        prefs::use_words,
    },
};

/// The choice of a new gauge.
const NEW: &str = "new";

/// The gauges of this card, and the form of a new one.
#[component]
pub(super) fn GaugeChoice(page: Gauging) -> impl IntoView {
    let words = use_words();
    let g = &words.gauging;
    let adding = RwSignal::new(false);
    let options = move || {
        let chosen = page.gauge();
        let known = page.whole(|gauger| {
            let ids = gauger.standing.gauges.keys();
            let named = ids.filter_map(|id| Some((*id, gauger.standing.gauge(*id)?.name.clone())));
            named.collect::<Vec<_>>()
        });
        let known = known.unwrap_or_default().into_iter();
        let known = known.map(|(id, name)| {
            view! { <option value=id.to_string() selected=chosen == Some(id)>{name}</option> }
                .into_any()
        });
        view! {
            <option value="" selected=chosen.is_none()>{words.gauging.no_gauge}</option>
            {known.collect_view()}
            <option value=NEW>{words.gauging.new_gauge}</option>
        }
        .into_any()
    };
    let choose = move |id: String| {
        adding.set(id == NEW);
        if id != NEW {
            page.choose_gauge(GaugeId::parse(&id).ok());
        }
    };
    view! {
        <label class="field gauging__gauge">
            <span class="field__label">{g.gauge}</span>
            <select class="field__input" id="gauge" on:change=text(choose)>{live(options)}</select>
        </label>
        {live(move || adding.get().then(|| view! { <NewGauge page adding/> }))}
    }
}

/// What is typed of a new gauge.
#[derive(Clone, Copy)]
struct Form {
    name: RwSignal<String>,
    unit: RwSignal<Unit>,
    resolution: RwSignal<String>,
    expanded: RwSignal<String>,
    k: RwSignal<String>,
    calibrated: RwSignal<String>,
    material: RwSignal<Option<Material>>,
    wrong: RwSignal<Option<String>>,
}

impl Form {
    fn read(self) -> Result<Gauge, String> {
        let words = use_words();
        let figure = |text: &str| parse_decimal(text).map_err(|error| words.number_error(&error));
        let expanded = self.expanded.get_untracked();
        let day = self.calibrated.get_untracked();
        let calibrated: Option<Timestamp> = format!("{day}T00:00:00Z").parse().ok();
        Ok(Gauge {
            id: platform::gauge_id(),
            name: self.name.get_untracked().trim().to_owned(),
            unit: self.unit.get_untracked(),
            resolution: figure(&self.resolution.get_untracked())?,
            expanded: if expanded.trim().is_empty() {
                None
            } else {
                Some(figure(&expanded)?)
            },
            k: parse_number(&self.k.get_untracked()).map_err(|error| words.number_error(&error))?,
            calibrated,
            material: self.material.get_untracked(),
        })
    }
}

/// The form of a new gauge.
#[component]
fn NewGauge(page: Gauging, adding: RwSignal<bool>) -> impl IntoView {
    let words = use_words();
    let g = &words.gauging;
    let form = Form {
        name: RwSignal::new(String::new()),
        unit: RwSignal::new(page.unit()),
        resolution: RwSignal::new(String::new()),
        expanded: RwSignal::new(String::new()),
        k: RwSignal::new("2".to_owned()),
        calibrated: RwSignal::new(String::new()),
        material: RwSignal::new(Some(Material::Steel)),
        wrong: RwSignal::new(None),
    };
    let keep = move || match form.read() {
        Err(why) => form.wrong.set(Some(why)),
        Ok(gauge) => {
            let (id, name) = (gauge.id, gauge.name.clone());
            let store = page.eyes.store;
            store.after(move || async move {
                let body = Body::Gauge {
                    gauge: Box::new(gauge),
                };
                match store.keep(vec![Draft::from(body)]).await {
                    Ok(()) => {
                        page.choose_gauge(Some(id));
                        crate::app::announce(&use_words().gauging.kept(&name));
                        adding.set(false);
                    }
                    Err(why) => {
                        let plan = store.peek(|open| refusal(use_words(), open.card.plan(), &why));
                        form.wrong.set(plan);
                    }
                }
            });
        }
    };
    let field =
        |id: &'static str, label: &'static str, value: RwSignal<String>, mode: &'static str| {
            view! {
            <label class="field">
                <span class="field__label">{label}</span>
                <input class="field__input num" id=id inputmode=mode autocomplete="off"
                    prop:value=move || value.get() on:input=text(move |typed| value.set(typed))/>
            </label>
        }
        .into_any()
        };
    let units = Unit::ALL.into_iter().map(move |unit| {
        let selected = unit == form.unit.get_untracked();
        view! { <option value=unit.as_str() selected=selected>{unit.sign()}</option> }.into_any()
    });
    let materials = Material::ALL
        .into_iter()
        .enumerate()
        .map(move |(number, material)| {
            let name = capitalised(words.material(material));
            view! { <option value=number.to_string() selected=number == 0>{name}</option> }
                .into_any()
        });
    let choose = move |number: String| {
        let material = number
            .parse()
            .ok()
            .and_then(|n: usize| Material::ALL.get(n).copied());
        form.material.set(material);
    };
    view! {
        <fieldset class="newgauge">
            <legend>{g.new_gauge}</legend>
            {field("gauge-name", g.gauge_name, form.name, "text")}
            <label class="field">
                <span class="field__label">{g.unit}</span>
                <select class="field__input" id="gauge-unit" on:change=text(move |unit| if let Some(unit) = Unit::parse(&unit) { form.unit.set(unit); })>{units.collect_view()}</select>
            </label>
            {field("gauge-step", g.resolution, form.resolution, "decimal")}
            {field("gauge-u", g.expanded, form.expanded, "decimal")}
            {field("gauge-k", g.coverage, form.k, "decimal")}
            <label class="field">
                <span class="field__label">{g.calibrated}</span>
                <input class="field__input" id="gauge-day" type="date" on:change=text(move |day| form.calibrated.set(day))/>
            </label>
            <label class="field">
                <span class="field__label">{g.material}</span>
                <select class="field__input" id="gauge-material" on:change=text(choose)>
                    {materials.collect_view()}
                    <option value="">{g.no_material}</option>
                </select>
            </label>
            <button type="button" class="button button--act" id="gauge-keep" on:click=press(keep)>{g.keep_gauge}</button>
            {live(move || form.wrong.get().map(|why| view! { <p class="field__wrong" role="alert">{why}</p> }.into_any()))}
        </fieldset>
    }
}
