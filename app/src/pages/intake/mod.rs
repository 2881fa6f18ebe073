//! Files that come in: picked or dropped on the Shelf or beside the plans; cards, plans, size sheets and backups,
//! several at once.

mod asking;
mod photos;

use std::{borrow::Cow, collections::VecDeque, sync::Arc};

use leptos::{
    ev::{self, DragEvent},
    prelude::*,
    task::spawn_local,
};
use ringland_card::{
    CardId, Photo,
    file::{
        self, BackupError, Bundle, BundleError, FileError, MOST_BACKUP_BYTES, OpenedSizes,
        OpeningBackup, OpeningCard, PlanFileError, SizesFileError,
    },
};
use ringland_report::words::Words;
use web_sys::File;

use self::{
    asking::{Asked, Question, Waiting},
    photos::CamePhotos,
};
use crate::{
    app::announce,
    components::{act::press, file_button::files, live::live},
    order,
    persist::{KeepError, space, transfer},
    platform::focus,
    route::Route,
    slices::{READ_SHARE, Slices, Stopped},
    store::{
        CardStore, Plans, Prefs, Shelf,
        plans::{CamePlan, PlanCame, PlanNotTaken},
        prefs::use_words,
        shelf::{Came, NotTaken},
        use_card, use_plans, use_prefs, use_shelf,
    },
};

/// The id of the news on the page.
const NEWS: &str = "news";

/// What a file, or a card, a plan or a size sheet in a backup, came to.
#[derive(Clone, Debug, PartialEq)]
struct Line {
    /// The file, and the number in it where it is a backup.
    from: String,
    outcome: Outcome,
}

#[derive(Clone, Debug, PartialEq)]
enum Outcome {
    Came(Came),
    NotTaken(NotTaken),
    CamePlan(CamePlan),
    PlanNotTaken(PlanNotTaken),
    CameSheet(CameSheet),
    SheetNotTaken(SheetNotTaken),
    Backup(BackupError),
    /// A card with photos that could not be opened.
    Bundle(BundleError),
    /// What came of the photos of a card.
    Photos(CamePhotos),
    /// The browser did not give the file's content.
    Unread,
    /// A backup that was cut short.
    Short,
    /// Stopped by hand with so many left.
    Stopped(usize),
    /// The card is here, and somebody chose to leave it as it is.
    Left(CardId),
}

/// The bytes of a file as it was picked.
type Whole = Arc<Vec<u8>>;

/// The bytes of the card, plan, sheet or backup in a file: what an archive or a page carries, or the file itself.
fn card_in(whole: &[u8]) -> Result<Cow<'_, [u8]>, Outcome> {
    if file::is_bundle(whole) {
        let card = Bundle::open(whole).and_then(|bundle| bundle.card());
        return card.map_err(Outcome::Bundle);
    }
    file::carried(whole).map_err(|why| Outcome::NotTaken(why.into()))
}

/// A size sheet that came in.
#[derive(Clone, Debug, PartialEq)]
struct CameSheet {
    name: String,
    /// Whether it was changed after it was written.
    altered: bool,
    /// Whether it was not on this tablet before.
    new: bool,
}

#[derive(Clone, Debug, PartialEq)]
enum SheetNotTaken {
    File(SizesFileError),
    Keep(KeepError),
}

/// Files under way, and what came of the last ones: a `Copy` handle.
#[derive(Clone, Copy)]
pub struct Intake {
    store: CardStore,
    shelf: Shelf,
    plans: Plans,
    prefs: Prefs,
    lines: RwSignal<Vec<Line>>,
    /// Done, and of how many.
    progress: RwSignal<Option<(usize, usize)>>,
    /// How much of the one under way is done, from 0 to 1.
    share: RwSignal<f64>,
    stop: RwSignal<bool>,
    /// Files of cards that are here already.
    waiting: RwSignal<VecDeque<Waiting>>,
    /// What is asked of the first of them.
    asked: RwSignal<Option<Asked>>,
}

impl Intake {
    /// With nothing under way, for what is below in the page.
    pub fn here() -> Self {
        Self {
            store: use_card(),
            shelf: use_shelf(),
            plans: use_plans(),
            prefs: use_prefs(),
            lines: RwSignal::new(Vec::new()),
            progress: RwSignal::new(None),
            share: RwSignal::new(0.0),
            stop: RwSignal::new(false),
            waiting: RwSignal::new(VecDeque::new()),
            asked: RwSignal::new(None),
        }
    }

    /// Takes files in, one after the other. Those of cards that are here are asked about first; what is in a backup was
    /// saved to come in together.
    pub fn open(self, files: Vec<File>) {
        if files.is_empty() || self.progress.get_untracked().is_some() {
            return;
        }
        self.begin(files.len());
        spawn_local(async move {
            for (done, file) in files.iter().enumerate() {
                let stopped = self.stop.get_untracked() || self.open_one(file).await.is_err();
                if stopped {
                    self.say(String::new(), Outcome::Stopped(files.len() - done));
                    break;
                }
                self.set_progress(done + 1, files.len());
            }
            self.end().await;
        });
    }

    fn begin(self, files: usize) {
        self.waiting.set(VecDeque::new());
        self.lines.set(Vec::new());
        self.go_on(files);
    }

    /// Begins with more files; what came of those before stays on the screen.
    fn go_on(self, files: usize) {
        self.asked.set(None);
        self.stop.set(false);
        self.set_progress(0, files);
        focus(NEWS);
    }

    async fn end(self) {
        // What needs a second look stands first.
        let lines = self.lines.get_untracked();
        self.lines.set(order::by_key(lines, Line::rank));
        // What came in is kept; a Shelf that cannot be read now says so when it next is.
        let _shown = self.shelf.refresh().await;
        self.ask_next().await;
        self.progress.set(None);
        self.announce();
        if self.any_came() {
            space::ask_once(self.prefs).await;
        }
    }

    /// Takes one file in; an error where somebody stopped it before anything of it came in.
    async fn open_one(self, file: &File) -> Result<(), Stopped> {
        let name = file.name();
        if file.size() > MOST_BACKUP_BYTES as f64 {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a size in bytes"
            )]
            let given = file.size() as usize;
            self.say(name, Outcome::Backup(BackupError::TooLarge { given }));
            return Ok(());
        }
        let Ok(bytes) = transfer::bytes(file).await else {
            self.say(name, Outcome::Unread);
            return Ok(());
        };
        let whole: Whole = Arc::new(bytes);
        let bytes = match card_in(&whole) {
            Ok(bytes) => bytes,
            Err(why) => {
                self.say(name, why);
                return Ok(());
            }
        };
        let mut slices = Slices::until(self.stop, self.share);
        let mut opening = OpeningBackup::new(&bytes);
        match slices.run(|bytes| opening.step(bytes)).await? {
            Ok(backup) => self.restore(&name, backup, &mut slices).await,
            Err(BackupError::NotABackup) => {
                if let Some(outcome) = self.take(&bytes, &name, &whole, &mut slices).await? {
                    self.say(name, outcome);
                }
            }
            Err(error) => self.say(name, Outcome::Backup(error)),
        }
        Ok(())
    }

    /// Takes in a card, a plan or a size sheet out of the file of that name; none where somebody is to be asked first
    /// and it waits.
    async fn take(
        self,
        bytes: &[u8],
        from: &str,
        whole: &Whole,
        slices: &mut Slices,
    ) -> Result<Option<Outcome>, Stopped> {
        let opened = match self.read_card(bytes, slices).await? {
            Ok(opened) => opened,
            Err(FileError::NotACard) => return Ok(Some(self.take_no_card(bytes).await)),
            Err(why) => return Ok(Some(Outcome::NotTaken(why.into()))),
        };
        let opened = match self.put_by(from, opened, whole).await {
            Ok(Some(opened)) => opened,
            Ok(None) => return Ok(None),
            Err(why) => return Ok(Some(Outcome::NotTaken(why))),
        };
        let taken = self.take_whole(from, opened, whole, slices).await?;
        Ok(Some(taken))
    }

    /// Takes in a card that was read and the photos that came with it; what came of these is said by itself.
    async fn take_whole(
        self,
        from: &str,
        opened: file::Opened,
        whole: &Whole,
        slices: &mut Slices,
    ) -> Result<Outcome, Stopped> {
        let (card, named) = (opened.card.id(), opened.card.photos_named());
        let named: Vec<Photo> = named.into_values().cloned().collect();
        let taken = self.take_read(opened, slices).await?;
        if taken.is_ok()
            && let Some(db) = self.store.db()
        {
            let came = photos::take(&db, card, &named, Some(whole), slices).await;
            if came.is_news() {
                self.say(from.to_owned(), Outcome::Photos(came));
            }
        }
        Ok(taken.map_or_else(Outcome::NotTaken, Outcome::Came))
    }

    /// Takes in a plan or a size sheet.
    async fn take_no_card(self, bytes: &[u8]) -> Outcome {
        match self.plans.take(bytes).await {
            Ok(came) => Outcome::CamePlan(came),
            Err(PlanNotTaken::File(PlanFileError::NotAPlan)) => match file::read_sizes(bytes) {
                Err(SizesFileError::NotSizes) => Outcome::NotTaken(FileError::NotACard.into()),
                read => self.take_sheet(read).await,
            },
            Err(error) => Outcome::PlanNotTaken(error),
        }
    }

    async fn take_sheet(self, read: Result<OpenedSizes, SizesFileError>) -> Outcome {
        let opened = match read {
            Ok(opened) => opened,
            Err(why) => return Outcome::SheetNotTaken(SheetNotTaken::File(why)),
        };
        match self.shelf.take_sheet(&opened.sheet).await {
            Ok(new) => Outcome::CameSheet(CameSheet {
                name: opened.sheet.name,
                altered: !opened.digest_matches,
                new,
            }),
            Err(why) => Outcome::SheetNotTaken(SheetNotTaken::Keep(why)),
        }
    }

    /// Reads and takes in a card, in slices; stopped before it is kept, nothing of it is.
    async fn take_card(
        self,
        bytes: &[u8],
        slices: &mut Slices,
    ) -> Result<Result<Came, NotTaken>, Stopped> {
        match self.read_card(bytes, slices).await? {
            Ok(opened) => self.take_read(opened, slices).await,
            Err(error) => Ok(Err(error.into())),
        }
    }

    async fn read_card(
        self,
        bytes: &[u8],
        slices: &mut Slices,
    ) -> Result<Result<file::Opened, FileError>, Stopped> {
        let mut opening = OpeningCard::new(bytes);
        let step = |bytes| {
            let step = opening.step(bytes);
            self.share.set(READ_SHARE * opening.share());
            step
        };
        let read = slices.run(step).await?;
        self.share.set(READ_SHARE);
        Ok(read)
    }

    async fn take_read(
        self,
        opened: file::Opened,
        slices: &mut Slices,
    ) -> Result<Result<Came, NotTaken>, Stopped> {
        match self.shelf.take_opened(opened, slices).await {
            Err(NotTaken::Stopped | NotTaken::Keep(KeepError::Stopped)) => Err(Stopped),
            taken => Ok(taken),
        }
    }

    fn set_progress(self, done: usize, all: usize) {
        self.share.set(0.0);
        self.progress.set(Some((done, all)));
    }

    async fn restore(self, name: &str, mut backup: file::Backup<'_>, slices: &mut Slices) {
        let (cards, whole) = (backup.left(), backup.is_whole());
        let plans = backup.plans_left();
        let all = cards + plans + backup.sheets_left();
        for number in 0.. {
            let Some(text) = backup.next_text() else {
                break;
            };
            self.set_progress(number, all);
            let Ok(outcome) = self.take_card(text, slices).await else {
                return self.say(name.to_owned(), Outcome::Stopped(all - number));
            };
            let from = use_words().files.in_backup(name, number + 1);
            self.say(from, outcome.map_or_else(Outcome::NotTaken, Outcome::Came));
        }
        for number in 0.. {
            let Some(kept) = backup.next_plan() else {
                break;
            };
            if slices.turn().await.is_err() || self.stop.get_untracked() {
                return self.say(name.to_owned(), Outcome::Stopped(all - cards - number));
            }
            self.set_progress(cards + number, all);
            let outcome = match kept {
                Ok(kept) => self.plans.take_kept(kept).await,
                Err(error) => Err(PlanNotTaken::File(error)),
            };
            let from = use_words().files.plan_in_backup(name, number + 1);
            let outcome = outcome.map_or_else(Outcome::PlanNotTaken, Outcome::CamePlan);
            self.say(from, outcome);
        }
        for number in 0.. {
            let Some(read) = backup.next_sheet() else {
                break;
            };
            let done = cards + plans + number;
            if slices.turn().await.is_err() || self.stop.get_untracked() {
                return self.say(name.to_owned(), Outcome::Stopped(all - done));
            }
            self.set_progress(done, all);
            let from = use_words().files.sheet_in_backup(name, number + 1);
            let outcome = self.take_sheet(read).await;
            self.say(from, outcome);
        }
        if !whole {
            self.say(name.to_owned(), Outcome::Short);
        }
    }

    fn say(self, from: String, outcome: Outcome) {
        self.lines
            .update(|lines| lines.push(Line { from, outcome }));
    }

    fn any_came(self) -> bool {
        self.lines
            .with_untracked(|lines| lines.iter().any(Line::has_come))
    }

    /// Tells who listens to the screen: the one thing, or how many came and what did not; or what is asked.
    fn announce(self) {
        let words = use_words();
        if let Some(asked) = self.asked.get_untracked() {
            let title = words.merging.title(&self.shelf.name(asked.card));
            return announce(&[&[title], &*asked.said].concat().join(". "));
        }
        let lines = self.lines.get_untracked();
        let mut said = Vec::new();
        if lines.len() > 1 {
            said.push(title(words, &lines));
        }
        let told = lines
            .iter()
            .filter(|line| lines.len() == 1 || !line.has_come());
        said.extend(told.map(|line| line.said(words, self.shelf)));
        announce(&said.join(". "));
    }
}

impl Line {
    /// What came of it, in a sentence.
    fn said(&self, words: &Words, shelf: Shelf) -> String {
        let files = &words.files;
        let name = |id| {
            let name = shelf.name(id);
            if name.is_empty() {
                words.shelf.nameless.to_owned()
            } else {
                name
            }
        };
        match &self.outcome {
            Outcome::Came(Came::New(id)) => words.shelf.file_added(&name(*id)),
            Outcome::Came(Came::Merged(id, 0)) => words.shelf.nothing_new(&name(*id)),
            Outcome::Came(Came::Merged(id, new)) => words.shelf.merged(*new, &name(*id)),
            Outcome::Came(Came::Altered(id)) => files.altered_here(&name(*id)),
            Outcome::NotTaken(NotTaken::File(FileError::NotACard)) => {
                words.errors.not_a_backup.to_owned()
            }
            Outcome::NotTaken(why) => why_not(words, why),
            Outcome::CamePlan(plan) => plan_came(words, plan),
            Outcome::PlanNotTaken(PlanNotTaken::File(why)) => words.plan_file_error(why),
            Outcome::PlanNotTaken(PlanNotTaken::Keep(why))
            | Outcome::SheetNotTaken(SheetNotTaken::Keep(why)) => why.said(words),
            Outcome::CameSheet(sheet) => sheet_came(words, sheet),
            Outcome::SheetNotTaken(SheetNotTaken::File(why)) => words.sizes_file_error(why),
            Outcome::Backup(why) => words.backup_error(why),
            Outcome::Bundle(why) => words.bundle_refused(why),
            Outcome::Photos(came) => came.said(words),
            Outcome::Left(id) => words.merging.left(&name(*id)),
            Outcome::Unread => files.unread.to_owned(),
            Outcome::Short => files.cut_short.to_owned(),
            Outcome::Stopped(left) => files.stopped(*left),
        }
    }

    /// Whether it is about the files as a whole, not about one thing that came or did not.
    fn is_about_all(&self) -> bool {
        matches!(self.outcome, Outcome::Short | Outcome::Stopped(_))
    }

    /// Whether it is about the photos of a card that has a line of its own.
    fn is_of_photos(&self) -> bool {
        matches!(self.outcome, Outcome::Photos(_))
    }

    /// Where it stands among the others: what did not come first, then plans and size sheets, as they are few.
    fn rank(&self) -> u8 {
        match &self.outcome {
            Outcome::Photos(came) if came.is_whole() => 3,
            Outcome::Came(_) => 2,
            Outcome::CamePlan(_) | Outcome::CameSheet(_) => 1,
            _ => 0,
        }
    }

    fn has_come(&self) -> bool {
        match &self.outcome {
            Outcome::Came(_) | Outcome::CamePlan(_) | Outcome::CameSheet(_) | Outcome::Left(_) => {
                true
            }
            Outcome::Photos(came) => came.is_whole(),
            _ => false,
        }
    }

    /// The way to what came, and what it is called.
    fn way(&self, words: &Words) -> Option<(Route, &'static str)> {
        match &self.outcome {
            Outcome::Came(Came::New(id) | Came::Merged(id, _)) => {
                Some((Route::Bench(*id), words.shelf.rate))
            }
            Outcome::Came(Came::Altered(id)) => Some((Route::Card(*id), words.shelf.show_card)),
            Outcome::CamePlan(plan) => Some((Route::Plan(plan.id), words.plans.edit)),
            _ => None,
        }
    }
}

/// What is said of a plan that came in.
fn plan_came(words: &Words, plan: &CamePlan) -> String {
    let (name, version) = &plan.name;
    let (said, name) = (&words.plans, words.plans.version_said(name, version));
    match plan.came {
        PlanCame::Known => said.known(&name),
        _ if plan.altered => said.opened_altered(&name),
        PlanCame::Beside => said.beside(&name),
        PlanCame::New => said.opened(&name),
    }
}

/// What is said of a size sheet that came in.
fn sheet_came(words: &Words, sheet: &CameSheet) -> String {
    let said = &words.gauging;
    let came = if sheet.new {
        said.sheet_taken(&sheet.name)
    } else {
        said.sheet_known(&sheet.name)
    };
    if sheet.altered {
        format!("{came}. {}", said.sheet_altered)
    } else {
        came
    }
}

/// A refusal in kind words.
fn why_not(words: &Words, why: &NotTaken) -> String {
    match why {
        NotTaken::File(error) => words.file_error(error),
        NotTaken::Merge(error) => words.merge_error(error),
        NotTaken::Keep(error) => error.said(words),
        NotTaken::AlteredKnown => words.files.altered_known.to_owned(),
        NotTaken::Stopped => words.files.stopped(1),
    }
}

/// What is under way and what came, above the engines.
#[component]
pub fn IntakeNews(
    /// The files.
    intake: Intake,
) -> impl IntoView {
    let words = use_words();
    let progress = move || {
        let (done, all) = intake.progress.get()?;
        let view = view! {
            <div class="news__progress">
                <label class="news__label" for="intake-progress">{words.files.reading((done + 1).min(all), all)}</label>
                <progress id="intake-progress" class="meter" max=all.to_string()
                    value=move || (done as f64 + intake.share.get()).to_string()></progress>
                <button type="button" class="button" disabled=move || intake.stop.get()
                    on:click=press(move || intake.stop.set(true))>{words.common.cancel}</button>
            </div>
        };
        Some(view.into_any())
    };
    let close = move || intake.lines.set(Vec::new());
    // Names are known once everything is in and the Shelf has been read anew.
    let news = move || {
        let lines = intake.lines.get();
        (!lines.is_empty() && intake.progress.get().is_none()).then(|| {
            view! {
                <div class="news__head">
                    <h2 class="news__title">{title(words, &lines)}</h2>
                    <button type="button" class="button" on:click=press(close)>{words.common.close}</button>
                </div>
                <ul class="news__lines">
                    {lines.into_iter().map(|line| view! { <NewsLine intake line/> }).collect_view()}
                </ul>
            }
            .into_any()
        })
    };
    let asked = move || {
        if intake.progress.get().is_some() {
            return None;
        }
        let asked = intake.asked.get()?;
        let view = view! { <Question intake asked/> };
        Some(view.into_any())
    };
    let quiet = move || {
        let idle = intake.progress.get().is_none() && intake.lines.with(Vec::is_empty);
        idle && intake.asked.with(Option::is_none)
    };
    view! {
        <section class="news" class:news--quiet=quiet id=NEWS tabindex="-1" aria-label=words.files.news>
            {live(progress)}
            {live(asked)}
            {live(news)}
        </section>
    }
}

/// What came of it all, where it is more than one thing.
fn title(words: &Words, lines: &[Line]) -> String {
    let is_one = |line: &&Line| !line.is_about_all() && !line.is_of_photos();
    let tried = lines.iter().filter(is_one);
    let (came, all) = tried.fold((0, 0), |(came, all), line| {
        (came + usize::from(line.has_come()), all + 1)
    });
    if all > 1 {
        words.files.came(came, all)
    } else {
        words.files.news.to_owned()
    }
}

#[component]
fn NewsLine(intake: Intake, line: Line) -> impl IntoView {
    let words = use_words();
    let refused = !line.has_come();
    let named = refused && !line.is_about_all();
    let ways = line.way(words);
    let from = line.from.clone();
    view! {
        <li class="news__line" class:news__line--refused=refused>
            <span class="news__said">
                {named.then(|| view! { <b>{words.shelf.not_opened(&line.from)}</b> }.into_any())}
                <span>{move || line.said(words, intake.shelf)}</span>
                {(!named).then(|| view! { <span class="fine">{from}</span> }.into_any())}
            </span>
            {ways.map(|(route, name)| view! { <a class="button" href=route.href()>{name}</a> }.into_any())}
        </li>
    }
}

/// Takes what is dropped anywhere on the page; whether something is being dragged over it.
fn take_drops(intake: Intake) -> RwSignal<bool> {
    let dragging = RwSignal::new(false);
    let over = window_event_listener(ev::dragover, move |event: DragEvent| {
        // Without this the browser would leave the page for the file.
        event.prevent_default();
        dragging.set(true);
    });
    let left = window_event_listener(ev::dragleave, move |event: DragEvent| {
        // Outside the window there is nothing that the pointer goes on to.
        if event.related_target().is_none() {
            dragging.set(false);
        }
    });
    let drop = window_event_listener(ev::drop, move |event: DragEvent| {
        event.prevent_default();
        dragging.set(false);
        intake.open(files(event.data_transfer().and_then(|data| data.files())));
    });
    on_cleanup(move || {
        over.remove();
        left.remove();
        drop.remove();
    });
    dragging
}

/// Takes files that are dropped anywhere on the page, and shows that while one is dragged over it.
#[component]
pub fn Drop(
    /// Where they go.
    intake: Intake,
) -> impl IntoView {
    let (dragging, words) = (take_drops(intake), use_words());
    live(move || {
        dragging.get().then(|| {
            view! { <div class="drop" aria-hidden="true"><p>{words.shelf.drop_now}</p></div> }
                .into_any()
        })
    })
}
