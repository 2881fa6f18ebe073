//! The page that is handed over, written in slices so that the tablet stays awake.

use std::{
    collections::{BTreeMap, BTreeSet},
    task::Poll,
};

use js_sys::{Array, Uint8Array};

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
    CardId, FactField, PhotoDigest,
    file::{DigestingCard, WritingCard, showing, shown_bytes},
    photo::Picture,
};
use ringland_report::{
    card::Sheet,
    format::file_name,
    handover::{Carried, Choice, HandOver, ReadAs},
    photo::{Piece, pieces},
    words::{Words, words},
};

use web_sys::File;

use super::{outlook::drawn, seals_of, sheet_of};
use crate::{
    components::{
        self,
        act::press,
        choice::{Offer, place},
        live::live,
        working::Working,
    },
    persist::{photos::Kept, transfer},
    platform,
    slices::{Slices, Stopped},
    store::{CardStore, Prefs, prefs::use_words, use_card, use_prefs},
};

/// How much of the work is done once the text is put together.
const PUT: f64 = 0.9;

/// Other weightings drawn between two looks at the clock.
const STEP: usize = 10;

/// A page ready to be saved.
struct Page {
    card: CardId,
    /// What its file is called.
    name: String,
    /// Its text, in which the places of pictures are only named.
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
        choice: RwSignal::new(Choice::default()),
        here: RwSignal::new(BTreeSet::new()),
    };
    spawn_local(writing.look_for_photos());
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
            let came = match writing.page().await {
                Some(page) => writing.saved(&page).await.ok(),
                None => None,
            };
            // The page of the app may have been left by now.
            let _left = made.try_set(came);
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
        <WhichPhotos writing/>
    }
}

/// Which photos the report shows, and what that adds to its size; nothing where there are none on this tablet.
#[component]
fn WhichPhotos(writing: Writing) -> impl IntoView {
    let words = use_words();
    live(move || {
        let here = writing.here.get();
        if here.is_empty() {
            return None;
        }
        let offers = writing.store.whole(|open| {
            let sheet = sheet_of(open, writing.prefs);
            Choice::ALL
                .map(|choice| offer(words, choice, &sheet, &here))
                .to_vec()
        });
        let choose = move |place: usize| writing.choice.set(Choice::ALL[place.min(2)]);
        let chosen = Signal::derive(move || place(&Choice::ALL, &writing.choice.get()));
        Some(view! {
            <div class="head__photos">
                <components::choice::Choice label=words.photos.in_report name="report-photos" offers=offers.unwrap_or_default()
                    chosen choose=Callback::new(choose)/>
            </div>
        }.into_any())
    })
}

fn offer(words: &Words, choice: Choice, sheet: &Sheet<'_>, here: &BTreeSet<PhotoDigest>) -> Offer {
    let name = match choice {
        Choice::None => words.photos.in_report_none,
        Choice::Worst => words.photos.in_report_worst,
        Choice::All => words.photos.in_report_all,
    };
    let chosen = choice.of(sheet, here);
    let sizes: BTreeMap<PhotoDigest, u64> = sheet
        .all_photos()
        .map(|photo| (photo.digest, photo.picture.bytes))
        .collect();
    let bytes: u64 = chosen.iter().filter_map(|digest| sizes.get(digest)).sum();
    let hint = match chosen.len() {
        0 => String::new(),
        n => words.photos.in_report_size(
            &words.photos.count(n),
            &words.numbers.bytes(shown_bytes(bytes)),
        ),
    };
    Offer {
        name: name.to_owned(),
        hint,
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
    /// Which photos stand in it.
    choice: RwSignal<Choice>,
    /// The photos of the card whose bytes are on this tablet.
    here: RwSignal<BTreeSet<PhotoDigest>>,
}

impl Writing {
    /// Saves a page with the bytes of its pictures, which come one after the other.
    async fn saved(self, page: &Page) -> Result<Made, Stopped> {
        let mut slices = Slices::until(self.stop, self.share);
        let Some(db) = self.store.db() else {
            return Ok(Made::Not);
        };
        let parts = Array::new();
        let add = |text: &str| {
            parts.push(&Uint8Array::from(text.as_bytes()));
        };
        let pieces = pieces(&page.text);
        for (number, piece) in pieces.iter().enumerate() {
            match piece {
                Piece::Text(text) => add(text),
                Piece::Photo(digest) => {
                    let bytes = db.photo(Kept::Photo, page.card, *digest).await;
                    let bytes = bytes.ok().flatten().map(|bytes| bytes.to_vec());
                    let Some((bytes, picture)) = bytes
                        .and_then(|bytes| Picture::of(&bytes).ok().map(|picture| (bytes, picture)))
                    else {
                        return Ok(Made::Not);
                    };
                    add(&showing(picture.kind, &bytes));
                }
            }
            slices.tell(PUT + (1.0 - PUT) * number as f64 / pieces.len() as f64);
            slices.turn().await?;
        }
        let file = transfer::file_of_parts(&page.name, "text/html", &parts);
        Ok(
            match file.and_then(|file| transfer::save(&file).map(|()| file)) {
                Ok(file) => {
                    let bytes = transfer::size(&file);
                    Made::Saved(file, bytes)
                }
                Err(_refused) => Made::Not,
            },
        )
    }

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

    /// Finds out which photos of the card are on this tablet.
    async fn look_for_photos(self) {
        let card = self.store.peek(|open| open.card.id());
        if let (Some(card), Some(db)) = (card, self.store.db())
            && let Ok(here) = db.photos_of(card).await
        {
            let _left = self.here.try_set(here);
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
        let seals = seals_of(self.store).await;
        let (Some(file), Some(digest), Some(seals)) = (file, digest, seals) else {
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
            let pictures = self
                .here
                .with_untracked(|here| self.choice.get_untracked().of(&sheet, here));
            sheet.pictures = Some(&pictures);
            let text = HandOver::new(sheet, read_as, left, open.stored.altered).page(Carried {
                file: &file,
                digest: &digest,
                seals: &seals,
            });
            let card = open.card.id();
            Page { card, name, text }
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
