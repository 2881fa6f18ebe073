//! What is done on the Shelf, and what is said about it afterwards.

use std::{future::Future, pin::Pin, time::Duration};

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{
    CardId, Timestamp,
    file::{self, PlanTexts},
};
use ringland_report::{
    format::{file_name, time},
    words::Words,
};

use super::engine::Shows;
use crate::{
    app::announce,
    components::{act::press, live::live},
    pages::intake::Intake,
    persist::{demo, transfer},
    platform::{self, focus},
    store::{Plans, Prefs, Shelf, prefs::use_words, shelf::Came, use_plans, use_prefs, use_shelf},
};

/// How the name of a file ends that holds what cannot be read.
const DAMAGED: &str = "-damaged.json";

/// How long a notice stays that asks for nothing.
const SHOWN: Duration = Duration::from_secs(8);

/// What was done last, at the foot of the screen until it is closed or something else is done.
#[derive(Clone, Debug, PartialEq)]
enum Notice {
    /// Done.
    Done(String),
    /// Not done.
    Failed(String),
    /// In the bin, and may be taken out again.
    Binned(CardId, String),
}

/// A `Copy` handle on the Shelf's screen.
#[derive(Clone, Copy)]
pub struct Desk {
    /// Files that come in.
    pub intake: Intake,
    shelf: Shelf,
    plans: Plans,
    prefs: Prefs,
    /// The engine that shows more than the ways into it.
    pub(super) opened: RwSignal<Option<(CardId, Shows)>>,
    notice: RwSignal<Option<Notice>>,
    busy: RwSignal<bool>,
}

/// Provides it to everything below.
pub fn provide_desk() -> Desk {
    let (shelf, prefs) = (use_shelf(), use_prefs());
    let desk = Desk {
        intake: Intake::here(),
        shelf,
        plans: use_plans(),
        prefs,
        opened: RwSignal::new(None),
        notice: RwSignal::new(None),
        busy: RwSignal::new(false),
    };
    provide_context(desk);
    desk
}

/// The Shelf's screen.
pub fn use_desk() -> Desk {
    expect_context()
}

impl Desk {
    /// Whether something is under way that should not be begun twice.
    pub fn busy(self) -> bool {
        self.busy.get()
    }

    /// Does one thing and then says how it went.
    fn run(self, job: impl Future<Output = Result<Notice, String>> + 'static) {
        if !self.busy.get_untracked() {
            self.busy.set(true);
            self.run_boxed(Box::pin(job));
        }
    }

    fn run_boxed(self, job: Pin<Box<dyn Future<Output = Result<Notice, String>>>>) {
        spawn_local(async move {
            let notice = job.await.unwrap_or_else(Notice::Failed);
            self.busy.set(false);
            let undo = matches!(notice, Notice::Binned(..));
            announce(notice.text(use_words()).as_str());
            self.show(notice);
            if undo {
                focus("undo-delete");
            }
        });
    }

    /// Shows a notice; one that asks for nothing goes by itself.
    fn show(self, notice: Notice) {
        self.notice.set(Some(notice.clone()));
        if matches!(notice, Notice::Done(_)) {
            let close = move || {
                if self.notice.try_get_untracked().flatten().as_ref() == Some(&notice) {
                    self.close();
                }
            };
            set_timeout(close, SHOWN);
        }
    }

    /// Saves the file of one card.
    pub fn save(self, id: CardId, name: String) {
        self.save_one(id.to_string(), name, ".card.json");
    }

    /// Saves what cannot be read of a card, as it stands in the storage.
    pub fn save_damaged(self, card: String, name: String) {
        self.save_one(card, name, DAMAGED);
    }

    fn save_one(self, card: String, name: String, ending: &'static str) {
        let words = use_words();
        self.run(async move {
            let damaged = ending == DAMAGED;
            let text = match CardId::parse(&card) {
                Ok(id) if !damaged => self.shelf.file(id).await,
                _ => self.shelf.damaged(&card).await.map(|text| (text, 0)),
            };
            let (text, unreadable) = text.map_err(|error| error.said(words))?;
            save(words, &file_name(&name, "engine", ending), &text)?;
            if unreadable > 0 {
                return Err(words.safe.unreadable(unreadable));
            }
            Ok(Notice::Done(if damaged {
                words.safe.damaged_saved(&name)
            } else {
                words.shelf.file_saved(&name)
            }))
        });
    }

    /// Saves all cards, plans and size sheets as one file. A card that is damaged is named and does not keep the others
    /// back.
    pub fn back_up(self) {
        let words = use_words();
        self.run(async move {
            let (mut files, mut damaged) = (Vec::new(), Vec::new());
            for card in self.shelf.cards_now() {
                let file = self.shelf.file(card.id).await;
                if !matches!(file, Ok((_, 0))) {
                    damaged.push(super::engine::name_of(words, card.summary.as_ref().ok()));
                }
                files.extend(file.map(|(text, _)| text));
            }
            let plans = self.plans.stored().await;
            let plans = plans.map_err(|error| error.said(words))?;
            let texts = plans.iter().map(|plan| PlanTexts {
                file: &plan.file,
                parent: plan.parent.as_deref(),
            });
            let sheets = self.shelf.sheets().await;
            let sheets = sheets.map_err(|error| error.said(words))?;
            let text = file::write_backup(
                files.iter().map(String::as_str),
                texts,
                sheets.iter().map(String::as_str),
            );
            let now = platform::now();
            save(words, &backup_name(now), &text)?;
            self.shelf.backed_up(|_all| true);
            if !damaged.is_empty() {
                return Err(words.files.left_out(&damaged.join(", ")));
            }
            self.prefs.set_last_backup(now.as_millisecond());
            let said = words
                .shelf
                .backup_said(files.len(), plans.len(), sheets.len());
            match self.shelf.with_photos().await {
                // It stays on the screen: whoever believes that photos are in a backup loses them.
                Ok(engines) if engines > 0 => {
                    Err([said, words.photos.not_in_backup(engines)].join(". "))
                }
                _ => Ok(Notice::Done(said)),
            }
        });
    }

    /// Puts a card into the bin.
    pub fn delete(self, id: CardId, name: String) {
        let words = use_words();
        self.run(async move {
            self.shelf
                .set_deleted(id, true)
                .await
                .map_err(|error| error.said(words))?;
            Ok(Notice::Binned(id, name))
        });
    }

    /// Takes a card out of the bin.
    pub fn bring_back(self, id: CardId, name: String) {
        let words = use_words();
        self.run(async move {
            self.shelf
                .set_deleted(id, false)
                .await
                .map_err(|error| error.said(words))?;
            Ok(Notice::Done(words.shelf.brought_back(&name)))
        });
    }

    /// Puts the demo engines on the Shelf.
    pub fn put_demo(self) {
        let words = use_words();
        self.run(async move {
            let mut put = Vec::new();
            for file in demo::files().await {
                put.extend(self.shelf.take(&file).await);
            }
            self.shelf
                .refresh()
                .await
                .map_err(|error| error.said(words))?;
            self.shelf.backed_up(|id| put.contains(&Came::New(id)));
            match put.len() {
                0 => Err(words.shelf.demo_none.to_owned()),
                _ => Ok(Notice::Done(words.shelf.demo_note.to_owned())),
            }
        });
    }

    fn close(self) {
        self.notice.set(None);
    }
}

/// The name of a backup's file.
pub fn backup_name(made: Timestamp) -> String {
    let stamp = time::stamp(made, platform::offset_minutes());
    let date = stamp.split(' ').next().unwrap_or_default();
    format!("ringland-backup-{date}.json")
}

fn save(words: &Words, name: &str, text: &str) -> Result<(), String> {
    transfer::save_text(name, "application/json", text)
        .map_err(|_refused| words.files.not_saved.to_owned())
}

impl Notice {
    fn text(&self, words: &Words) -> String {
        match self {
            Self::Done(text) | Self::Failed(text) => text.clone(),
            Self::Binned(_, name) => words.shelf.deleted(name),
        }
    }
}

/// What was done last, with the way back where there is one.
#[component]
pub fn NoticeBar() -> impl IntoView {
    let (desk, words) = (use_desk(), use_words());
    live(move || {
        desk.notice.get().map(|notice| {
            let failed = matches!(notice, Notice::Failed(_));
            let text = notice.text(words);
            let undo = match notice {
                Notice::Binned(id, name) => Some(view! {
                    <button type="button" class="button" id="undo-delete"
                        on:click=press(move || desk.bring_back(id, name.clone()))>{words.shelf.undo}</button>
                }.into_any()),
                _ => None,
            };
            view! {
                <div class="notice" class:notice--failed=failed>
                    <p class="notice__text">{text}</p>
                    {undo}
                    <button type="button" class="button button--quiet" on:click=press(move || desk.close())>
                        {words.common.close}
                    </button>
                </div>
            }
            .into_any()
        })
    })
}
