//! Cards that are on the tablet already: what a file would bring is shown before it is merged, file after file.

use std::collections::VecDeque;

use leptos::{prelude::*, task::spawn_local};
use ringland_card::{CardId, file};

use super::{Intake, NEWS, Outcome, Whole};
use crate::{
    components::act::press,
    platform::focus,
    slices::{Slices, Stopped},
    store::{prefs::use_words, shelf::NotTaken},
};

/// A card's file that waits for somebody to say whether it is to come in.
#[derive(Clone, Debug)]
pub(super) struct Waiting {
    /// The file.
    from: String,
    opened: file::Opened,
    /// The whole of it, where there may be photos in it.
    whole: Whole,
    /// What it would bring, a line for each thing to know; nothing where another file of the card came in since.
    said: Option<Vec<String>>,
}

/// What is asked now, of the first that waits.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Asked {
    pub card: CardId,
    pub said: Vec<String>,
    from: String,
    /// How many wait, with this one.
    waiting: usize,
}

impl Intake {
    /// Puts a card by where it would bring something to one that is here; else gives it back.
    pub(super) async fn put_by(
        self,
        from: &str,
        opened: file::Opened,
        whole: &Whole,
    ) -> Result<Option<file::Opened>, NotTaken> {
        let Some(said) = self.would_bring(&opened).await? else {
            return Ok(Some(opened));
        };
        let waiting = Waiting {
            from: from.to_owned(),
            opened,
            whole: Whole::clone(whole),
            said: Some(said),
        };
        self.waiting.update(|all| all.push_back(waiting));
        Ok(None)
    }

    /// What a file would bring to the card that is here; nothing where that is nothing, or where no such card is here.
    async fn would_bring(self, opened: &file::Opened) -> Result<Option<Vec<String>>, NotTaken> {
        let here = self.shelf.coming(opened).await?;
        let brings = here.filter(|(_, coming)| !coming.is_empty());
        let units = self.prefs.units();
        Ok(brings.map(|(card, coming)| use_words().coming(&card, &coming, units)))
    }

    /// Asks about the first that waits; those that bring nothing any more are taken without a question, for their photos.
    pub(super) async fn ask_next(self) {
        self.asked.set(None);
        while let Some(mut next) = self.first() {
            let said = match next.said.take() {
                Some(said) => Ok(Some(said)),
                None => self.would_bring(&next.opened).await,
            };
            match said {
                Ok(Some(said)) => {
                    self.asked.set(Some(Asked {
                        card: next.opened.card.id(),
                        from: next.from.clone(),
                        said: said.clone(),
                        waiting: self.waiting.with_untracked(VecDeque::len) + 1,
                    }));
                    next.said = Some(said);
                    return self.waiting.update(|all| all.push_front(next));
                }
                Ok(None) => {
                    let mut slices = Slices::until(self.stop, self.share);
                    // Stopped, it says so itself.
                    let _stopped = self.take_waiting(next, &mut slices).await;
                }
                Err(why) => self.say(next.from, Outcome::NotTaken(why)),
            }
        }
    }

    fn first(self) -> Option<Waiting> {
        self.waiting.try_update(VecDeque::pop_front).flatten()
    }

    /// Merges one that waits; what waits of the same card then brings less.
    async fn take_waiting(self, next: Waiting, slices: &mut Slices) -> Result<(), Stopped> {
        let card = next.opened.card.id();
        let outcome = self
            .take_whole(&next.from, next.opened, &next.whole, slices)
            .await;
        self.waiting.update(|all| {
            for other in all
                .iter_mut()
                .filter(|other| other.opened.card.id() == card)
            {
                other.said = None;
            }
        });
        let stopped = outcome.as_ref().err().copied();
        let said = outcome.unwrap_or(Outcome::Stopped(1));
        self.say(next.from, said);
        stopped.map_or(Ok(()), Err)
    }

    /// Merges so many of those that wait, and asks about the next.
    fn merge(self, count: usize) {
        self.go_on(count);
        spawn_local(async move {
            let mut slices = Slices::until(self.stop, self.share);
            for done in 0..count {
                let Some(next) = self.first() else { break };
                if self.take_waiting(next, &mut slices).await.is_err() {
                    break;
                }
                self.set_progress(done + 1, count);
            }
            self.end().await;
        });
    }

    /// Leaves the card of the first as it is, and asks about the next.
    fn leave(self) {
        let Some(left) = self.first() else { return };
        self.say(left.from, Outcome::Left(left.opened.card.id()));
        focus(NEWS);
        spawn_local(async move {
            self.ask_next().await;
            self.announce();
        });
    }
}

/// The question.
#[component]
pub(super) fn Question(intake: Intake, asked: Asked) -> impl IntoView {
    let words = use_words();
    let (name, waiting) = (intake.shelf.name(asked.card), asked.waiting);
    let all = (waiting > 1).then(|| {
        view! {
            <button type="button" class="button" id="merge-all"
                on:click=press(move || intake.merge(waiting))>{words.merging.take_all(waiting)}</button>
        }
        .into_any()
    });
    view! {
        <div class="merging" role="group" aria-labelledby="merging-title">
            <h2 class="news__title" id="merging-title">{words.merging.title(&name)}</h2>
            <p>{words.merging.lead}</p>
            <ul class="merging__lines num">
                {asked.said.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}
            </ul>
            <div class="panel__acts">
                <button type="button" class="button button--act" id="merge"
                    on:click=press(move || intake.merge(1))>{words.merging.take}</button>
                <button type="button" class="button" id="leave"
                    on:click=press(move || intake.leave())>{words.merging.leave}</button>
                {all}
                <span class="fine">{asked.from}</span>
            </div>
        </div>
    }
}
