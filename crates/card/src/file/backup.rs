//! All cards, plans of one's own and size sheets of a tablet in one file, to be put back on this tablet or another.
//!
//! ```text
//! {"format":"ringland-backup","version":1,"cards":[
//! {"digest":"sha256:…","entries":[…],"format":"ringland-card",…},
//! {"digest":"sha256:…","entries":[…],"format":"ringland-card",…}
//! ],"plans":[
//! {"file":{"digest":"sha256:…","format":"ringland-plan",…},"parent":{"digest":"sha256:…",…}}
//! ],"sheets":[
//! {"digest":"sha256:…","format":"ringland-sizes",…}
//! ]}
//! ```
//!
//! The file is plain JSON, and each card in it is the very text of its own file, on a line by itself;
//! so with the plans, each beside the plan that it was derived from, where that was at hand, and with the size sheets.
//! So a file that was cut short or damaged still gives everything whose line is whole, and a file that
//! another program laid out anew is read as the JSON it is. Where there are no plans or no sheets, there is no
//! such member, as in every backup before they were in it; a program of that time still finds the cards.

use std::{fmt::Write, task::Poll};

use serde_json::{Map, Value};

use super::{
    MOST_BYTES,
    fault::{FieldFault, Shape},
    plan_file::{PlanFile, PlanFileError, read_draft_value},
    read::{FileError, Opened, read},
    sizes_file::{OpenedSizes, SizesFileError, read_sizes},
    strict::{self, Event, JsonError, Parser},
};
use crate::plan::Plan;

/// The name of the format.
pub const BACKUP_FORMAT: &str = "ringland-backup";
/// The version of the format that this code writes.
pub const BACKUP_VERSION: u64 = 1;
/// The largest backup read, in bytes: 512 MiB.
pub const MOST_BACKUP_BYTES: usize = 8 * MOST_BYTES;
/// The most cards in one backup.
pub const MOST_CARDS: usize = 10_000;
/// The most plans in one backup.
pub const MOST_OWN_PLANS: usize = 1_000;

/// The most size sheets in one backup.
pub const MOST_SHEETS: usize = 1_000;

const HEAD: &str = r#"{"format":"ringland-backup","version":1,"cards":["#;
/// The lists of a backup, as they are called and in the order in which they stand.
const LISTS: [&str; 3] = ["cards", "plans", "sheets"];

/// A list of a backup.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BackupList {
    /// The cards.
    Cards,
    /// The plans of one's own.
    Plans,
    /// The size sheets.
    Sheets,
}

impl BackupList {
    /// All, in the order of [`LISTS`].
    const ALL: [Self; LISTS.len()] = [Self::Cards, Self::Plans, Self::Sheets];

    /// The most that may be in it.
    pub fn most(self) -> usize {
        match self {
            Self::Cards => MOST_CARDS,
            Self::Plans => MOST_OWN_PLANS,
            Self::Sheets => MOST_SHEETS,
        }
    }

    fn as_str(self) -> &'static str {
        LISTS[self as usize]
    }
}
const TAIL: &str = "]}";

/// Why nothing could be read from a backup.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BackupError {
    /// Too large to read.
    #[error("the backup has {given} bytes: allowed is {MOST_BACKUP_BYTES} at most")]
    TooLarge {
        /// Its size.
        given: usize,
    },
    /// Neither laid out as it was written, nor JSON.
    #[error("the backup is not readable: {0}")]
    Json(#[from] JsonError),
    /// Something else.
    #[error("this is not a backup: it does not say `\"format\": \"{BACKUP_FORMAT}\"`")]
    NotABackup,
    /// Written by a newer version.
    #[error(
        "the backup is of format version {version}: this program reads up to version {BACKUP_VERSION}"
    )]
    Newer {
        /// Its version.
        version: u64,
    },
    /// A member that is missing or wrong.
    #[error("{place}: {why}")]
    Field {
        /// The member.
        place: &'static str,
        /// What is wrong with it.
        why: FieldFault,
    },
    /// More cards, plans or sheets than a backup may hold.
    #[error("{}: there are {given}, allowed is {} at most", list.as_str(), list.most())]
    TooMany {
        /// The list.
        list: BackupList,
        /// How many there are.
        given: usize,
    },
}

/// A plan as a backup is to have it: the text of its file (see [`super::write_plan`]), and that of the
/// plan that it was derived from.
#[derive(Clone, Copy, Debug)]
pub struct PlanTexts<'t> {
    /// The plan's file.
    pub file: &'t str,
    /// The file of its parent, where that is at hand.
    pub parent: Option<&'t str>,
}

/// A plan out of a backup.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptPlan {
    /// What its file holds; the plan may still contradict itself, as one in the making.
    pub file: PlanFile,
    /// Whether the digest in its file is the digest of its content.
    pub digest_matches: bool,
    /// The plan that it was derived from, where the backup has that whole.
    pub parent: Option<Plan>,
}

/// A backup that was opened. As an iterator it gives its cards one by one, in the order of the file,
/// each read as its own file would be; a damaged one is an error and the next is still to be had. So
/// with its plans, by [`Backup::next_plan`], and its size sheets, by [`Backup::next_sheet`].
#[derive(Clone, Debug)]
pub struct Backup<'b> {
    cards: Items<'b>,
    plans: Items<'b>,
    sheets: Items<'b>,
    whole: bool,
}

/// Texts in the order of the file, each where it stands there.
type Items<'b> = std::vec::IntoIter<&'b [u8]>;

/// Writes a backup of cards, of plans and of size sheets, each given as the text of its file (see
/// [`super::write`], [`super::write_sizes`]).
pub fn write_backup<'t>(
    cards: impl IntoIterator<Item = &'t str>,
    plans: impl IntoIterator<Item = PlanTexts<'t>>,
    sheets: impl IntoIterator<Item = &'t str>,
) -> String {
    let mut text = HEAD.to_owned();
    for (n, card) in cards.into_iter().enumerate() {
        let comma = if n == 0 { "" } else { "," };
        // Writing to a text cannot fail.
        let _ = write!(text, "{comma}\n{card}");
    }
    for (n, plan) in plans.into_iter().enumerate() {
        text.push_str(&before("plans", n));
        let _ = write!(text, "{{\"file\":{}", plan.file);
        if let Some(parent) = plan.parent {
            let _ = write!(text, ",\"parent\":{parent}");
        }
        text.push('}');
    }
    for (n, sheet) in sheets.into_iter().enumerate() {
        text.push_str(&before("sheets", n));
        text.push_str(sheet);
    }
    text.push('\n');
    text.push_str(TAIL);
    text.push('\n');
    text
}

/// What stands before the n-th text of a list after the cards.
fn before(list: &str, n: usize) -> String {
    if n == 0 {
        format!("\n{}\n", list_line(list))
    } else {
        ",\n".to_owned()
    }
}

/// The line that ends a list and begins the next one.
fn list_line(next: &str) -> String {
    format!("],\"{next}\":[")
}

/// Opens a backup.
///
/// Limits: 512 MiB, 10,000 cards, 1,000 plans, 1,000 sheets, and for each of them those of its own file.
///
/// # Errors
///
/// [`BackupError`] when there is nothing to be had from it.
pub fn read_backup(bytes: &[u8]) -> Result<Backup<'_>, BackupError> {
    let mut opening = OpeningBackup::new(bytes);
    loop {
        if let Poll::Ready(opened) = opening.step(usize::MAX) {
            return opened;
        }
    }
}

/// A backup being opened step by step: where its cards, plans and sheets stand is found, and no more.
#[derive(Debug)]
pub struct OpeningBackup<'b> {
    bytes: &'b [u8],
    stage: Stage<'b>,
}

#[derive(Debug)]
enum Stage<'b> {
    /// Laid out as this code does it: a line for each.
    Lines(Lines<'b>),
    /// Laid out otherwise, if it is a backup at all: up to there it does not say so.
    Word(usize),
    /// Read as the JSON it is.
    Values(Box<Values<'b>>),
}

impl<'b> OpeningBackup<'b> {
    /// Begins to open a backup.
    pub fn new(bytes: &'b [u8]) -> Self {
        let stage = match bytes.strip_prefix(HEAD.as_bytes()) {
            Some(lines) if lines.starts_with(b"\n") || lines.starts_with(b"\r\n") => {
                Stage::Lines(Lines::new(HEAD.len()))
            }
            _ => Stage::Word(0),
        };
        Self { bytes, stage }
    }

    /// Goes on for about so many bytes; then it is open, or there is more to be done.
    ///
    /// # Errors
    ///
    /// [`BackupError`] when there is nothing to be had from it.
    pub fn step(&mut self, bytes: usize) -> Poll<Result<Backup<'b>, BackupError>> {
        match self.go_on(bytes.max(1)) {
            Ok(None) => Poll::Pending,
            Ok(Some(backup)) => Poll::Ready(Ok(backup)),
            Err(error) => Poll::Ready(Err(error)),
        }
    }

    /// How much of the work is done, about, from 0 to 1.
    pub fn share(&self) -> f64 {
        let at = match &self.stage {
            Stage::Lines(lines) => lines.at,
            Stage::Word(_) => 0,
            Stage::Values(values) => values.parser.at(),
        };
        at as f64 / self.bytes.len().max(1) as f64
    }

    fn go_on(&mut self, bytes: usize) -> Result<Option<Backup<'b>>, BackupError> {
        let given = self.bytes.len();
        if given > MOST_BACKUP_BYTES {
            return Err(BackupError::TooLarge { given });
        }
        match &mut self.stage {
            Stage::Lines(lines) => {
                if lines.step(self.bytes, bytes) {
                    lines.end().map(Some)
                } else {
                    Ok(None)
                }
            }
            Stage::Word(at) => {
                // A long text that is something else is not worth reading as JSON.
                let word = BACKUP_FORMAT.as_bytes();
                let rest = self.bytes.get(*at..).unwrap_or_default();
                let end = bytes.saturating_add(word.len()).min(rest.len());
                if mentions(&rest[..end], word) {
                    self.stage = Stage::Values(Box::new(Values::new(self.bytes)));
                } else if end == rest.len() {
                    return Err(BackupError::NotABackup);
                } else {
                    *at += bytes;
                }
                Ok(None)
            }
            Stage::Values(values) => values.step(self.bytes, bytes),
        }
    }
}

/// A backup that has a line for each card, plan and sheet.
#[derive(Debug)]
struct Lines<'b> {
    /// Where the line under way begins, and up to where it has been looked through.
    start: usize,
    at: usize,
    lists: Lists<'b>,
    /// Which of the lists the line under way is in.
    list: usize,
    /// Whether the last line is the one that ends a backup.
    ended: bool,
}

/// What was found of each of [`LISTS`].
type Lists<'b> = [Counted<'b>; LISTS.len()];

/// Texts found, of which more than are allowed are only counted.
#[derive(Debug, Default)]
struct Counted<'b> {
    texts: Vec<&'b [u8]>,
    count: usize,
}

impl<'b> Counted<'b> {
    fn add(&mut self, text: &'b [u8]) {
        self.count += 1;
        if self.texts.len() < MOST_CARDS {
            self.texts.push(text);
        }
    }

    fn remove_last(&mut self) {
        if self.texts.len() == self.count {
            self.texts.pop();
        }
        self.count -= 1;
    }
}

impl<'b> Lines<'b> {
    fn new(at: usize) -> Self {
        Self {
            start: at,
            at,
            lists: Lists::default(),
            list: 0,
            ended: false,
        }
    }

    /// Goes on for so many bytes; whether all lines have been found.
    fn step(&mut self, text: &'b [u8], bytes: usize) -> bool {
        let until = self.at.saturating_add(bytes).min(text.len());
        while self.at < until {
            let end = text[self.at..until].iter().position(|byte| *byte == b'\n');
            let Some(end) = end.map(|end| self.at + end) else {
                self.at = until;
                break;
            };
            self.line(&text[self.start..end]);
            self.at = end + 1;
            self.start = self.at;
        }
        if self.at == text.len() {
            self.line(&text[self.start..]);
            self.start = self.at;
        }
        self.at == text.len()
    }

    fn line(&mut self, line: &'b [u8]) {
        let line = line.trim_ascii();
        if line.is_empty() {
            return;
        }
        self.ended = line == TAIL.as_bytes();
        let later = LISTS.iter().enumerate().skip(self.list + 1);
        let begun = { later }.find(|(_, name)| line == list_line(name).as_bytes());
        if let Some((list, _)) = begun {
            self.list = list;
            return;
        }
        let item = line.strip_suffix(b",").unwrap_or(line);
        self.lists[self.list].add(item);
    }

    fn end(&mut self) -> Result<Backup<'b>, BackupError> {
        if self.ended {
            self.lists[self.list].remove_last();
        }
        backup(std::mem::take(&mut self.lists), self.ended)
    }
}

fn backup(lists: Lists<'_>, whole: bool) -> Result<Backup<'_>, BackupError> {
    for (list, found) in BackupList::ALL.into_iter().zip(&lists) {
        let given = found.count;
        if given > list.most() {
            return Err(BackupError::TooMany { list, given });
        }
    }
    let [cards, plans, sheets] = lists.map(|list| list.texts.into_iter());
    Ok(Backup {
        cards,
        plans,
        sheets,
        whole,
    })
}

/// A backup read as JSON, however it is laid out.
#[derive(Debug)]
struct Values<'b> {
    parser: Parser<'b>,
    lists: Lists<'b>,
}

impl<'b> Values<'b> {
    fn new(bytes: &'b [u8]) -> Self {
        Self {
            parser: Parser::spans(bytes, &LISTS),
            lists: Lists::default(),
        }
    }

    fn step(&mut self, text: &'b [u8], bytes: usize) -> Result<Option<Backup<'b>>, BackupError> {
        let until = self.parser.at().saturating_add(bytes);
        loop {
            let left = until.saturating_sub(self.parser.at());
            match self.parser.next(left)? {
                None => return Ok(None),
                Some(Event::Item(item)) => {
                    let list = LISTS.iter().position(|name| *name == item.list);
                    if let Some(list) = list {
                        self.lists[list].add(&text[item.span]);
                    }
                }
                Some(Event::End(Value::Object(document))) => {
                    check_document(&document)?;
                    return backup(std::mem::take(&mut self.lists), true).map(Some);
                }
                Some(Event::End(_)) => return Err(BackupError::NotABackup),
            }
        }
    }
}

/// What stands beside the cards, plans and sheets.
fn check_document(document: &Map<String, Value>) -> Result<(), BackupError> {
    if document.get("format").and_then(Value::as_str) != Some(BACKUP_FORMAT) {
        return Err(BackupError::NotABackup);
    }
    check_version(document)?;
    let cards = document.get("cards").ok_or(BackupError::Field {
        place: "cards",
        why: FieldFault::Missing { name: "cards" },
    })?;
    check_list("cards", cards)?;
    for place in LISTS.into_iter().skip(1) {
        if let Some(list) = document.get(place) {
            check_list(place, list)?;
        }
    }
    Ok(())
}

fn check_list(place: &'static str, member: &Value) -> Result<(), BackupError> {
    match member {
        Value::Array(_) => Ok(()),
        other => {
            let why = FieldFault::shape(Shape::List, other);
            Err(BackupError::Field { place, why })
        }
    }
}

fn mentions(bytes: &[u8], word: &[u8]) -> bool {
    bytes.windows(word.len()).any(|window| window == word)
}

fn check_version(document: &Map<String, Value>) -> Result<(), BackupError> {
    match document.get("version").and_then(Value::as_u64) {
        Some(BACKUP_VERSION) => Ok(()),
        Some(newer) if newer > BACKUP_VERSION => Err(BackupError::Newer { version: newer }),
        _ => Err(BackupError::Field {
            place: "version",
            why: FieldFault::Version {
                known: BACKUP_VERSION,
            },
        }),
    }
}

impl<'b> Backup<'b> {
    /// Whether the file ends as it should; if not, it was cut short and cards may be missing.
    pub fn is_whole(&self) -> bool {
        self.whole
    }

    /// How many cards are still to be read.
    pub fn left(&self) -> usize {
        self.cards.len()
    }

    /// How many plans are still to be read.
    pub fn plans_left(&self) -> usize {
        self.plans.len()
    }

    /// How many size sheets are still to be read.
    pub fn sheets_left(&self) -> usize {
        self.sheets.len()
    }

    /// The text of the next card's file, for whoever reads it step by step; see [`super::OpeningCard`].
    pub fn next_text(&mut self) -> Option<&'b [u8]> {
        self.cards.next()
    }

    /// The next plan, read as its own file would be, though it may still contradict itself.
    pub fn next_plan(&mut self) -> Option<Result<KeptPlan, PlanFileError>> {
        self.plans.next().map(kept_plan_of)
    }

    /// The next size sheet, read as its own file would be.
    pub fn next_sheet(&mut self) -> Option<Result<OpenedSizes, SizesFileError>> {
        self.sheets.next().map(read_sizes)
    }
}

fn kept_plan_of(text: &[u8]) -> Result<KeptPlan, PlanFileError> {
    if text.len() > MOST_BYTES {
        return Err(PlanFileError::TooLarge { given: text.len() });
    }
    kept_plan(strict::parse(text)?)
}

fn kept_plan(value: Value) -> Result<KeptPlan, PlanFileError> {
    let Value::Object(mut kept) = value else {
        return Err(PlanFileError::NotAPlan);
    };
    let file = kept.remove("file").ok_or(PlanFileError::NotAPlan)?;
    let opened = read_draft_value(file)?;
    opened.file.plan.check_size()?;
    // A parent only says what differs: without it the plan is as good.
    let parent = kept.remove("parent");
    let parent = parent.and_then(|parent| read_draft_value(parent).ok());
    let parent = parent.map(|opened| opened.file.plan);
    Ok(KeptPlan {
        file: opened.file,
        digest_matches: opened.digest_matches,
        parent: parent.filter(|plan| plan.check_size().is_ok()),
    })
}

impl Iterator for Backup<'_> {
    type Item = Result<Opened, FileError>;

    fn next(&mut self) -> Option<Self::Item> {
        self.next_text().map(read)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        card::Card,
        entry::{Body, Entry},
        file::{write, write_as_altered},
        ids::{CardId, DeviceId, EntryId},
        layout::Layout,
        plan::{Depth, builtin},
    };

    fn card(number: u8) -> Card {
        let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
        let mut card = Card::new(CardId::v7(u64::from(number), [number; 10]), plan).unwrap();
        let remark = Body::Remark {
            about: None,
            text: format!("line\nof {number}"),
        };
        let entry = Entry::new(
            EntryId::v7(1, [number; 10]),
            DeviceId::v7(1, [1; 10]),
            1,
            crate::Timestamp::UNIX_EPOCH,
            "A. Rater",
            remark,
        );
        card.append(entry).unwrap();
        card
    }

    fn three() -> (Vec<Card>, String) {
        let cards: Vec<Card> = (1..=3).map(card).collect();
        let files: Vec<String> = cards.iter().map(write).collect();
        let text = write_backup(files.iter().map(String::as_str), [], []);
        (cards, text)
    }

    fn restored(bytes: &[u8]) -> (bool, Vec<Option<Card>>) {
        let backup = read_backup(bytes).unwrap();
        let whole = backup.is_whole();
        (
            whole,
            backup.map(|card| card.ok().map(|o| o.card)).collect(),
        )
    }

    #[test]
    fn what_was_backed_up_comes_back() {
        let (cards, text) = three();
        let (whole, back) = restored(text.as_bytes());
        assert!(whole);
        assert_eq!(back, cards.into_iter().map(Some).collect::<Vec<_>>());
        assert_eq!(
            restored(write_backup([], [], []).as_bytes()),
            (true, vec![])
        );
    }

    #[test]
    fn each_card_keeps_its_digest() {
        let (_, text) = three();
        assert!(
            read_backup(text.as_bytes())
                .unwrap()
                .all(|card| card.unwrap().digest_matches)
        );
        let altered = text.replace("of 2", "of 9");
        let matches: Vec<bool> = read_backup(altered.as_bytes())
            .unwrap()
            .map(|card| card.unwrap().digest_matches)
            .collect();
        assert_eq!(matches, [true, false, true]);
    }

    #[test]
    fn a_card_known_to_be_altered_stays_so() {
        let text = write_backup([write_as_altered(&card(1)).as_str()], [], []);
        let opened = read_backup(text.as_bytes())
            .unwrap()
            .next()
            .unwrap()
            .unwrap();
        assert!(!opened.digest_matches);
        assert_eq!(opened.card, card(1));
    }

    #[test]
    fn the_file_is_plain_json_and_is_read_in_any_layout() {
        let (cards, text) = three();
        let value: Value = serde_json::from_str(&text).unwrap();
        assert_eq!(value["format"], BACKUP_FORMAT);
        let wanted: Vec<Option<Card>> = cards.into_iter().map(Some).collect();
        for laid_out in [
            serde_json::to_string(&value).unwrap(),
            serde_json::to_string_pretty(&value).unwrap(),
            text.replace('\n', "\r\n"),
        ] {
            assert_eq!(restored(laid_out.as_bytes()), (true, wanted.clone()));
        }
    }

    #[test]
    fn a_damaged_card_is_told_and_the_others_come_back() {
        let (cards, text) = three();
        let [first, _, third] = &cards[..] else {
            unreachable!()
        };
        let second = text.lines().nth(2).unwrap();
        let cut = text.replace(second, &second[..second.len() / 2]);
        let mut backup = read_backup(cut.as_bytes()).unwrap();
        assert_eq!(backup.left(), 3);
        assert_eq!(backup.next().unwrap().unwrap().card, *first);
        assert!(matches!(backup.next(), Some(Err(FileError::Json(_)))));
        assert_eq!(backup.next().unwrap().unwrap().card, *third);
        assert!(backup.next().is_none());
    }

    #[test]
    fn a_backup_cut_short_gives_what_is_whole_and_says_so() {
        let (cards, text) = three();
        let end = text.len() - 100;
        let (whole, back) = restored(&text.as_bytes()[..end]);
        assert!(!whole);
        assert_eq!(back, [Some(cards[0].clone()), Some(cards[1].clone()), None]);
    }

    #[test]
    fn every_cut_and_every_broken_byte_is_an_answer() {
        let text = write_backup([write(&card(1)).as_str()], [], []);
        let bytes = text.as_bytes();
        for end in (0..bytes.len()).step_by(97) {
            if let Ok(backup) = read_backup(&bytes[..end]) {
                assert!(backup.count() <= 1);
            }
        }
        for place in (0..bytes.len()).step_by(101) {
            let mut broken = bytes.to_vec();
            broken[place] ^= 0x15;
            if let Ok(backup) = read_backup(&broken) {
                assert!(backup.count() <= 2);
            }
        }
    }

    #[test]
    fn what_is_no_backup_is_refused_with_the_reason() {
        let refuse = |text: &str| read_backup(text.as_bytes()).unwrap_err();
        assert_eq!(refuse(""), BackupError::NotABackup);
        assert_eq!(refuse(&write(&card(1))), BackupError::NotABackup);
        assert_eq!(refuse(r#"["ringland-backup"]"#), BackupError::NotABackup);
        assert_eq!(
            refuse(r#"{"format":"ringland-backup","version":2,"cards":[]}"#).to_string(),
            "the backup is of format version 2: this program reads up to version 1"
        );
        assert_eq!(
            refuse(r#"{"format":"ringland-backup","version":1,"cards":{}}"#).to_string(),
            "cards: it must be a list, not an object"
        );
        assert_eq!(
            refuse(r#"{"format":"ringland-backup","cards":[]}"#).to_string(),
            "version: it must be a whole number from 1 to 1"
        );
        assert!(matches!(
            refuse(r#"{"format":"ringland-backup""#),
            BackupError::Json(_)
        ));
        let many = format!("{HEAD}\n{}{TAIL}", "{},\n".repeat(MOST_CARDS + 1));
        assert_eq!(
            refuse(&many),
            BackupError::TooMany {
                list: BackupList::Cards,
                given: MOST_CARDS + 1
            }
        );
    }
}
