//! How much further the engine could have run: the draws are done in slices, so that the page stays awake.

use std::{task::Poll, time::Duration};

use leptos::{prelude::*, task::spawn_local};
use ringland_assess::gauging::{
    Race,
    finding::findings,
    outlook::{self, DRAWS},
};

use super::sheet;
use crate::{
    app::announce,
    components::{act::press, live::live, working::Working},
    slices::{Slices, Stopped},
    store::{CardStore, Prefs, prefs::use_words, use_card, use_prefs},
};

/// How long the page gets before the draws begin.
const FIRST: Duration = Duration::from_millis(200);

/// A `Copy` handle on the draws.
#[derive(Clone, Copy)]
struct Drawing {
    store: CardStore,
    prefs: Prefs,
    /// What came of it, as markup.
    made: RwSignal<String>,
    under_way: RwSignal<bool>,
    /// Whether it was stopped by hand.
    stopped: RwSignal<bool>,
    /// How much is done, from 0 to 1.
    share: RwSignal<f64>,
    stop: RwSignal<bool>,
    /// Whether nobody asked for it.
    at_once: bool,
}

impl Drawing {
    fn begin(self) {
        let words = use_words();
        let known = self
            .store
            .peek(|open| outlook::Outlook::of(&findings(&open.card.standing())))
            .flatten();
        let drawn = known.and_then(|outlook| Some((outlook.race(DRAWS).ok()?, outlook)));
        let Some((race, outlook)) = drawn else {
            return self.say(words.measured.outlook_needs);
        };
        self.stop.set(false);
        self.stopped.set(false);
        self.share.set(0.0);
        self.under_way.set(true);
        spawn_local(async move {
            let done = self.draw(race).await;
            // The page may have been left by now.
            if self.under_way.try_set(false).is_some() {
                return;
            }
            match done {
                Ok(Some(race)) => self.show(&outlook, race),
                Ok(None) => self.say(words.measured.outlook_needs),
                Err(Stopped) => {
                    self.stopped.set(true);
                    self.say(words.measured.outlook_stopped);
                }
            }
        });
    }

    /// Draws every position; none where one cannot be drawn.
    async fn draw(self, race: Race) -> Result<Option<Race>, Stopped> {
        let mut slices = Slices::until(self.stop, self.share);
        let told = |share| self.share.try_set(share).is_none();
        drawn(race, &mut slices, told).await
    }

    fn show(self, outlook: &outlook::Outlook, race: Race) {
        let Ok(first) = race.finish() else {
            return self.say(use_words().measured.outlook_needs);
        };
        let made = sheet(self.store, self.prefs, |sheet| {
            sheet.outlook(outlook, &first)
        });
        self.made.set(made.unwrap_or_default());
        if !self.at_once {
            let words = use_words();
            let engine = words.remaining(&first.engine, outlook.basis, self.prefs.units());
            announce(&[words.gauging.first_limit, ": ", &engine].concat());
        }
    }

    fn say(self, text: &str) {
        self.made.set(ringland_report::card::line(text));
    }
}

/// Draws every position in slices and tells how much is done, from 0 to 1, as long as anybody is there to be told;
/// none where one cannot be drawn or everybody has left.
///
/// # Errors
///
/// [`Stopped`] when somebody has stopped it.
pub async fn drawn(
    mut race: Race,
    slices: &mut Slices,
    told: impl Fn(f64) -> bool,
) -> Result<Option<Race>, Stopped> {
    let whole = slices
        .run(|_| match race.go_on(1) {
            Err(_) => Poll::Ready(false),
            Ok(progress) if progress.done < progress.of => {
                if told(progress.done as f64 / progress.of as f64) {
                    Poll::Pending
                } else {
                    Poll::Ready(false)
                }
            }
            Ok(_) => Poll::Ready(true),
        })
        .await?;
    Ok(whole.then_some(race))
}

/// How much further the engine could have run.
#[component]
pub fn Outlook(
    /// Whether the draws begin by themselves.
    at_once: bool,
) -> impl IntoView {
    let words = use_words();
    let drawing = Drawing {
        store: use_card(),
        prefs: use_prefs(),
        made: RwSignal::new(String::new()),
        under_way: RwSignal::new(false),
        stopped: RwSignal::new(false),
        share: RwSignal::new(0.0),
        stop: RwSignal::new(false),
        at_once,
    };
    if at_once {
        set_timeout(
            move || {
                if drawing.made.try_get_untracked().is_some() {
                    drawing.begin();
                }
            },
            FIRST,
        );
    }
    let progress = move || {
        drawing.under_way.get().then(|| {
            view! {
                <Working id="outlook-progress" label=words.gauging.working_out share=drawing.share stop=drawing.stop/>
            }
            .into_any()
        })
    };
    let again = move || {
        let wanted = !at_once || drawing.stopped.get();
        (wanted && !drawing.under_way.get()).then(|| {
            view! {
                <button type="button" class="button" id="work-out"
                    on:click=press(move || drawing.begin())>{words.measured.outlook_again}</button>
            }
            .into_any()
        })
    };
    view! {
        <section class="block outlook" id="outlook">
            <h2>{words.gauging.left}</h2>
            {live(progress)}
            <div inner_html=move || drawing.made.get()></div>
            {live(again)}
        </section>
    }
}
