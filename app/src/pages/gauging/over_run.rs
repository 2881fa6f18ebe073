//! Wear against distance: this engine beside the others on the tablet, which are read in slices.

use leptos::{prelude::*, task::spawn_local};
use ringland_assess::gauging::{
    Intercept,
    over_run::{StandsFor, StripDown},
};
use ringland_report::gauging::Beside;

use super::state::Gauging;
use crate::{
    app::announce,
    components::{
        act::press,
        choice::{Choice, Offer},
        live::live,
        working::Working,
    },
    slices::{Slices, Stopped},
    store::{Shelf, prefs::use_words, use_shelf},
};

/// What may be chosen, in the order of the buttons.
const STANDS_FOR: [StandsFor; 2] = [StandsFor::Most, StandsFor::Mean];
const BEGINS: [Intercept; 2] = [Intercept::Zero, Intercept::Free];

/// What was read of the other engines.
#[derive(Clone, Debug, Default)]
struct Others {
    stripped: Vec<StripDown>,
    unreadable: usize,
    stopped: bool,
}

/// A `Copy` handle on the engines beside this one.
#[derive(Clone, Copy)]
struct Engines {
    page: Gauging,
    shelf: Shelf,
    /// None until they were asked for.
    others: RwSignal<Option<Others>>,
    under_way: RwSignal<bool>,
    share: RwSignal<f64>,
    stop: RwSignal<bool>,
    stands_for: RwSignal<usize>,
    begins: RwSignal<usize>,
    every_model: RwSignal<bool>,
    /// What came of it, as markup.
    made: RwSignal<String>,
}

impl Engines {
    fn begin(self) {
        self.stop.set(false);
        self.share.set(0.0);
        self.under_way.set(true);
        spawn_local(async move {
            let others = self.read().await;
            // The page may have been left by now.
            if self.under_way.try_set(false).is_some() {
                return;
            }
            let words = use_words();
            announce(if others.stopped {
                words.over_run.stopped
            } else {
                words.gauging.over_distance
            });
            self.others.set(Some(others));
        });
    }

    /// Reads every other engine that is on the Shelf.
    async fn read(self) -> Others {
        let here = self.page.eyes.store.peek(|open| open.card.id());
        let cards = self.shelf.cards_now().into_iter();
        let cards: Vec<_> = cards.filter(|card| Some(card.id) != here).collect();
        let mut slices = Slices::until(self.stop, self.share);
        let mut others = Others::default();
        for (number, card) in cards.iter().enumerate() {
            match self.shelf.card(card.id).await {
                Ok(card) => others.stripped.push(StripDown::of(&card.standing())),
                Err(_) => others.unreadable += 1,
            }
            slices.tell((number + 1) as f64 / cards.len() as f64);
            if let Err(Stopped) = slices.turn().await {
                others.stopped = true;
                break;
            }
        }
        others
    }

    /// Draws it, with the readings as they are now.
    fn draw(self) {
        let kind = self.page.kind.get();
        let (stands_for, begins) = (self.stands_for.get(), self.begins.get());
        let every_model = self.every_model.get();
        // Set anew whenever the hand rests after a change.
        let _plotted = self.page.plots();
        let made = self.others.with(|others| {
            let others = others.as_ref()?;
            self.page.peek(|gauger| {
                let kind = gauger.kind_of(kind?)?;
                let beside = Beside {
                    others: &others.stripped,
                    every_model,
                    stands_for: STANDS_FOR[stands_for.min(1)],
                    intercept: BEGINS[begins.min(1)],
                };
                Some(gauger.over_run(kind, &beside))
            })?
        });
        self.made.set(made.unwrap_or_default());
    }
}

/// The section.
#[component]
pub(super) fn OverRun(page: Gauging) -> impl IntoView {
    let words = use_words();
    let w = &words.over_run;
    let engines = Engines {
        page,
        shelf: use_shelf(),
        others: RwSignal::new(None),
        under_way: RwSignal::new(false),
        share: RwSignal::new(0.0),
        stop: RwSignal::new(false),
        stands_for: RwSignal::new(0),
        begins: RwSignal::new(0),
        every_model: RwSignal::new(false),
        made: RwSignal::new(String::new()),
    };
    Effect::new(move || engines.draw());
    let read = move || engines.others.with(Option::is_some);
    let begin = move || {
        (!engines.under_way.get()).then(|| {
            let label = if read() { w.again } else { w.begin };
            view! {
                <button type="button" class="button" id="over-run-begin"
                    on:click=press(move || engines.begin())>{label}</button>
            }
            .into_any()
        })
    };
    let progress = move || {
        engines.under_way.get().then(|| {
            view! { <Working id="over-run-progress" label=w.reading share=engines.share stop=engines.stop/> }
                .into_any()
        })
    };
    view! {
        <section class="block outlook over-run" id="over-run">
            <h2>{words.gauging.over_distance}</h2>
            <p class="fine">{w.lead}</p>
            {live(progress)}
            {live(move || read().then(|| view! { <Asked engines/> }.into_any()))}
            <div inner_html=move || engines.made.get()></div>
            {live(begin)}
        </section>
    }
}

/// What stands for an engine, where wear begins, which engines; and what could not be read.
#[component]
fn Asked(engines: Engines) -> impl IntoView {
    let w = &use_words().over_run;
    let offers = |names: [&str; 2]| names.map(Offer::plain).to_vec();
    let missed = move || {
        engines.others.with(|others| {
            let others = others.as_ref()?;
            let mut said = Vec::new();
            if others.stopped {
                said.push(w.stopped.to_owned());
            }
            if others.unreadable > 0 {
                said.push(w.unreadable(others.unreadable));
            }
            (!said.is_empty())
                .then(|| view! { <p class="trouble">{said.join(". ")}</p> }.into_any())
        })
    };
    view! {
        {live(missed)}
        <div class="gauging__with">
            <Choice label=w.stands_for name="stands-for" offers=offers([w.most, w.mean])
                chosen=engines.stands_for.into() choose=Callback::new(move |place| engines.stands_for.set(place))/>
            <Choice label=w.start name="begins" offers=offers([w.start_zero, w.start_free])
                chosen=engines.begins.into() choose=Callback::new(move |place| engines.begins.set(place))/>
            <Choice label=w.which name="which-engines" offers=offers([w.same_model, w.every_model])
                chosen=Signal::derive(move || usize::from(engines.every_model.get()))
                choose=Callback::new(move |place| engines.every_model.set(place == 1))/>
        </div>
    }
}
