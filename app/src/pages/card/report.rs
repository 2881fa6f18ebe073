//! The page that is handed over, written in slices so that the tablet stays awake.

use std::task::Poll;

use leptos::{prelude::*, task::spawn_local};
use ringland_assess::{
    gauging::{
        FirstLimit,
        finding::findings,
        outlook::{self, Outlook},
    },
    weights::{DRAWS, Dependence, Drawing, SEED},
};
use ringland_card::{
    CardId, FactField,
    file::{DigestingCard, WritingCard},
};
use ringland_report::{
    format::file_name,
    handover::{Carried, HandOver, ReadAs},
    words::words,
};

use web_sys::File;

use super::{outlook::drawn, sheet_of};
use crate::{
    components::{act::press, live::live, working::Working},
    persist::transfer,
    platform,
    slices::{Slices, Stopped},
    store::{CardStore, Prefs, prefs::use_words, use_card, use_prefs},
};

/// Other weightings drawn between two looks at the clock.
const STEP: usize = 10;

/// A page ready to be saved.
struct Page {
    /// What its file is called.
    name: String,
    text: String,
}

/// What came of the last page.
#[derive(Clone)]
enum Made {
    /// It was saved: the file, and its size in bytes.
    Saved(File, u64),
    /// The browser did not save it.
    Not,
    /// So many entries of the card cannot be read here: a page without them would pass for the whole.
    Damaged(usize),
}

/// Writes the page, saves it, and hands it on to another app where the browser can.
#[component]
pub fn Report() -> impl IntoView {
    let words = use_words();
    let writing = Writing {
        store: use_card(),
        prefs: use_prefs(),
        share: RwSignal::new(0.0),
        stop: RwSignal::new(false),
    };
    let under_way = RwSignal::new(false);
    let made = RwSignal::new_local(None::<Made>);
    let write = move || {
        if under_way.get_untracked() {
            return;
        }
        if let Some(lost) = writing
            .store
            .peek(|open| open.unreadable)
            .filter(|lost| *lost > 0)
        {
            return made.set(Some(Made::Damaged(lost)));
        }
        under_way.set(true);
        made.set(None);
        writing.share.set(0.0);
        writing.stop.set(false);
        spawn_local(async move {
            let page = writing.page().await;
            // The page of the app may have been left by now.
            let _left = made.try_set(page.map(|page| saved(&page)));
            let _left = under_way.try_set(false);
        });
    };
    let progress = move || {
        under_way.get().then(|| {
            view! {
                <Working id="report-progress" label=words.hand_over.saving share=writing.share stop=writing.stop/>
            }
            .into_any()
        })
    };
    let outcome = move || {
        Some(match made.get()? {
            Made::Not => {
                view! { <p class="trouble" role="alert">{words.card.not_saved}</p> }.into_any()
            }
            Made::Damaged(lost) => {
                let said = words.safe.unreadable(lost);
                view! { <p class="trouble" role="alert" id="report-damaged">{said}</p> }.into_any()
            }
            Made::Saved(file, bytes) => {
                let said = words
                    .hand_over
                    .saved(&file.name(), &words.numbers.bytes(bytes));
                let share = transfer::can_share(&file).then(|| {
                    let hand_on = move || {
                        let file = file.clone();
                        // Whoever changes their mind has not been failed by anything.
                        spawn_local(async move { drop(transfer::share(&file).await) });
                    };
                    view! {
                        <button type="button" class="button" id="hand-on"
                            on:click=press(hand_on)>{words.hand_over.hand_on}</button>
                    }
                    .into_any()
                });
                view! { <p class="head__made" role="status">{said}</p> {share} }.into_any()
            }
        })
    };
    view! {
        <button type="button" class="button" id="report" on:click=press(write)>{words.hand_over.save}</button>
        {live(progress)}
        {live(outcome)}
    }
}

fn saved(page: &Page) -> Made {
    let file = transfer::file_of(&page.name, "text/html", &page.text);
    match file.and_then(|file| transfer::save(&file).map(|()| file)) {
        Ok(file) => Made::Saved(file, page.text.len() as u64),
        Err(_refused) => Made::Not,
    }
}

/// The page being written.
#[derive(Clone, Copy)]
struct Writing {
    /// The card.
    store: CardStore,
    /// Whose language, units and clock it is written in.
    prefs: Prefs,
    /// How much is done, from 0 to 1.
    share: RwSignal<f64>,
    /// Stops it.
    stop: RwSignal<bool>,
}

impl Writing {
    /// Writes the page of the open card; none where it was stopped or the card was left.
    async fn page(self) -> Option<Page> {
        loop {
            let version = self.version()?;
            let page = self.once().await.ok()??;
            // A look that came in meanwhile belongs into all of the page or into none of it.
            if self.version()? == version {
                return Some(page);
            }
        }
    }

    fn version(self) -> Option<(CardId, usize)> {
        self.store.peek(|open| (open.card.id(), open.card.len()))
    }

    async fn once(self) -> Result<Option<Page>, Stopped> {
        let mut slices = Slices::until(self.stop, self.share);
        let begun = self.store.peek(|open| {
            let outlook = Outlook::of(&findings(&open.card.standing()));
            (
                open.stored.writing(&open.card),
                DigestingCard::new(&open.card),
                outlook,
            )
        });
        let Some((writing, digesting, outlook)) = begun else {
            return Ok(None);
        };
        let file = self.store.in_slices(writing, WritingCard::step).await;
        slices.tell(0.1);
        let digest = self.store.in_slices(digesting, DigestingCard::step).await;
        slices.tell(0.2);
        let (Some(file), Some(digest)) = (file, digest) else {
            return Ok(None);
        };
        let drawn = self.other_weights(&mut slices).await?;
        slices.tell(0.3);
        let first = match &outlook {
            Some(outlook) => self.first_limit(outlook, &mut slices).await?,
            None => None,
        };
        slices.turn().await?;
        let read_as = self.read_as();
        Ok(self.store.peek(|open| {
            let mut sheet = sheet_of(open, self.prefs);
            sheet.other_weights = drawn.as_ref().map(|drawn| (drawn, SEED));
            let name = sheet.standing.text(FactField::Name).unwrap_or_default();
            let name = file_name(name, "engine", ".card.html");
            // A page begun in one language ends in it, whatever is chosen meanwhile.
            sheet.words = words(read_as.language);
            let left = outlook.as_ref().zip(first.as_ref());
            let text = HandOver::new(sheet, read_as, left, open.stored.altered).page(Carried {
                file: &file,
                digest: &digest,
            });
            Page { name, text }
        }))
    }

    fn read_as(self) -> ReadAs {
        ReadAs {
            language: self.prefs.language(),
            units: self.prefs.units(),
            offset_minutes: platform::offset_minutes(),
        }
    }

    async fn other_weights(self, slices: &mut Slices) -> Result<Option<Dependence>, Stopped> {
        let begun = self.store.peek(|open| {
            open.result.all.engine().score?;
            Some(Drawing::new(open.card.plan(), open.card.index(), SEED))
        });
        let Some(mut drawing) = begun.flatten() else {
            return Ok(None);
        };
        slices
            .run(|_| {
                let more = STEP.min(DRAWS - drawing.len());
                let drawn = self.store.peek(|open| {
                    drawing.go_on(&open.tree, &open.result.leaves, &open.result.all, more);
                });
                match drawn {
                    Some(()) if drawing.len() < DRAWS => Poll::Pending,
                    _ => Poll::Ready(()),
                }
            })
            .await?;
        Ok(drawing.spread())
    }

    async fn first_limit(
        self,
        outlook: &Outlook,
        slices: &mut Slices,
    ) -> Result<Option<FirstLimit>, Stopped> {
        let Ok(race) = outlook.race(outlook::DRAWS) else {
            return Ok(None);
        };
        let told = |share: f64| self.share.try_set(0.3 + 0.6 * share).is_none();
        let race = drawn(race, slices, told).await?;
        Ok(race.and_then(|race| race.finish().ok()))
    }
}
