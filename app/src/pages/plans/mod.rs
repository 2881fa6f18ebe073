//! Plans: those of one's own on this tablet, new ones, and their files.

pub mod editor;
mod new;
mod press;

use leptos::{ev::MouseEvent, prelude::*, task::spawn_local};
use ringland_card::file;
use ringland_report::{
    format::file_name,
    plan::list::{Listed, list},
    words::Words,
};

use self::{new::NewPlan, press::pressed};
use crate::{
    app::announce,
    components::{act::press, file_button::FileButton, live::live},
    pages::intake::{Drop, Intake, IntakeNews},
    persist::transfer,
    platform::focus,
    route::Route,
    store::{Plans, plans::OwnPlan, prefs::use_words, use_plans},
};

/// A `Copy` handle on the screen.
#[derive(Clone, Copy)]
struct Rack {
    plans: Plans,
    words: &'static Words,
    /// What was done last, until something else is done.
    notice: RwSignal<Option<String>>,
    /// The plan that was deleted last, as long as it may be brought back.
    deleted: StoredValue<Option<OwnPlan>>,
}

impl Rack {
    fn say(self, said: String, deleted: Option<OwnPlan>) {
        announce(&said);
        let undo = deleted.is_some();
        self.deleted.set_value(deleted);
        self.notice.set(Some(said));
        if undo {
            focus("undo-plan");
        }
    }

    /// A press somewhere in the list.
    fn press(self, event: &MouseEvent) {
        let Some(button) = pressed(event, "[data-plan]") else {
            return;
        };
        let id = button.get_attribute("data-plan").unwrap_or_default();
        let mut all = self.plans.all_now().into_iter();
        let Some(own) = all.find(|own| own.id.to_string() == id) else {
            return;
        };
        match button.get_attribute("data-act").as_deref() {
            Some("save") => self.say(save(self.words, &own), None),
            Some("delete") => self.keep(own, true),
            _ => {}
        }
    }

    /// Puts a plan into the bin, or takes it out again.
    fn keep(self, own: OwnPlan, deleted: bool) {
        let words = self.words;
        spawn_local(async move {
            let name = own.plan().name.clone();
            match self.plans.keep(own.clone(), deleted).await {
                Ok(()) if deleted => self.say(words.plans.deleted(&name), Some(own)),
                Ok(()) => self.say(words.plans.brought_back(&name), None),
                Err(error) => self.say(error.said(words), None),
            }
        });
    }
}

/// Saves the file of a plan, and says how that went.
fn save(words: &Words, own: &OwnPlan) -> String {
    let plan = own.plan();
    let name = [plan.name.as_str(), " ", &plan.version].concat();
    let name = file_name(&name, "plan", ".plan.json");
    let text = file::write_plan(&own.file);
    match transfer::save_text(&name, "application/json", &text) {
        Ok(()) => words.plans.saved(&plan.name),
        Err(_refused) => words.files.not_saved.to_owned(),
    }
}

/// The screen.
#[component]
pub fn PlansPage() -> impl IntoView {
    let (plans, words) = (use_plans(), use_words());
    let rack = Rack {
        plans,
        words,
        notice: RwSignal::new(None),
        deleted: StoredValue::new(None),
    };
    let intake = Intake::here();
    let listed = move || {
        plans.ready().then(|| {
            let markup = list_of(&plans.all(), words);
            view! { <div inner_html=markup></div> }.into_any()
        })
    };
    view! {
        <div class="plans" on:click=move |event| rack.press(&event)>
            <header class="shelf__head">
                <h1 class="shelf__title">{words.plans.own}</h1>
                <div class="shelf__acts">
                    <FileButton label=words.plans.open_file id="open-plan" picked=Callback::new(move |files| intake.open(files))/>
                </div>
            </header>
            <IntakeNews intake/>
            {live(listed)}
            <NewPlan/>
        </div>
        <Drop intake/>
        <NoticeBar rack/>
    }
}

fn list_of(all: &[OwnPlan], words: &Words) -> String {
    let ways: Vec<String> = all.iter().map(|own| Route::Plan(own.id).href()).collect();
    let listed: Vec<Listed<'_>> = all
        .iter()
        .zip(&ways)
        .map(|(own, way)| Listed {
            id: own.id,
            plan: own.plan(),
            origin: own.file.derived_from.as_ref(),
            way,
        })
        .collect();
    list(&listed, words)
}

/// What was done last, with the way back where there is one.
#[component]
fn NoticeBar(rack: Rack) -> impl IntoView {
    let words = rack.words;
    let close = move || rack.notice.set(None);
    let back = move || {
        if let Some(own) = rack.deleted.get_value() {
            rack.keep(own, false);
        }
    };
    live(move || {
        rack.notice.get().map(|said| {
            let undo = rack.deleted.get_value().map(|_own| {
                view! {
                    <span class="fine">{words.plans.card_keeps}</span>
                    <button type="button" class="button" id="undo-plan" on:click=press(back)>{words.plans.undo}</button>
                }
                .into_any()
            });
            view! {
                <div class="notice">
                    <p class="notice__text">{said}</p>
                    {undo}
                    <button type="button" class="button button--quiet" on:click=press(close)>{words.common.close}</button>
                </div>
            }
            .into_any()
        })
    })
}
