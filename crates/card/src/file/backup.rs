//! All cards and plans of one's own of a tablet in one file, to be put back on this tablet or another.
//!
//! ```text
//! {"format":"ringland-backup","version":1,"cards":[
//! {"digest":"sha256:…","entries":[…],"format":"ringland-card",…},
//! {"digest":"sha256:…","entries":[…],"format":"ringland-card",…}
//! ],"plans":[
//! {"file":{"digest":"sha256:…","format":"ringland-plan",…},"parent":{"digest":"sha256:…",…}}
//! ]}
//! ```
//!
//! The file is plain JSON, and each card in it is the very text of its own file, on a line by itself;
//! so with the plans, each beside the plan that it was derived from, where that was at hand.
//! So a file that was cut short or damaged still gives everything whose line is whole, and a file that
//! another program laid out anew is read as the JSON it is. Where there are no plans, there is no such
//! member, as in every backup before plans were in it; a program of that time still finds the cards.

use std::{fmt::Write, task::Poll};

use serde_json::{Map, Value};

use super::{
    MOST_BYTES,
    fault::{FieldFault, Shape},
    plan_file::{PlanFile, PlanFileError, read_draft_value},
    read::{FileError, Opened, read},
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

const HEAD: &str = r#"{"format":"ringland-backup","version":1,"cards":["#;
const PLANS: &str = r#"],"plans":["#;
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
    /// More plans than a backup may hold.
    #[error("plans: there are {given}, allowed is {MOST_OWN_PLANS} at most")]
    TooManyPlans {
        /// How many there are.
        given: usize,
    },
    /// More cards than a backup may hold.
    #[error("cards: there are {given}, allowed is {MOST_CARDS} at most")]
    TooMany {
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
/// with its plans, by [`Backup::next_plan`].
#[derive(Clone, Debug)]
pub struct Backup<'b> {
    cards: Items<'b>,
    plans: Items<'b>,
    whole: bool,
}

/// Texts in the order of the file, each where it stands there.
type Items<'b> = std::vec::IntoIter<&'b [u8]>;

/// Writes a backup of cards, each given as the text of its file (see [`super::write`]), and of plans.
pub fn write_backup<'t>(
    cards: impl IntoIterator<Item = &'t str>,
    plans: impl IntoIterator<Item = PlanTexts<'t>>,
) -> String {
    let mut text = HEAD.to_owned();
    for (n, card) in cards.into_iter().enumerate() {
        let comma = if n == 0 { "" } else { "," };
        // Writing to a text cannot fail.
        let _ = write!(text, "{comma}\n{card}");
    }
    for (n, plan) in plans.into_iter().enumerate() {
        let (before, file) = (if n == 0 { PLANS } else { "," }, plan.file);
        let line_end = if n == 0 { "\n" } else { "" };
        let _ = write!(text, "{line_end}{before}\n{{\"file\":{file}");
        if let Some(parent) = plan.parent {
            let _ = write!(text, ",\"parent\":{parent}");
        }
        text.push('}');
    }
    text.push('\n');
    text.push_str(TAIL);
    text.push('\n');
    text
}

/// Opens a backup.
///
/// Limits: 512 MiB, 10,000 cards, 1,000 plans, and for each of them those of its own file.
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

/// A backup being opened step by step: where its cards and plans stand is found, and no more.
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

/// A backup that has a line for each card and plan.
#[derive(Debug)]
struct Lines<'b> {
    /// Where the line under way begins, and up to where it has been looked through.
    start: usize,
    at: usize,
    cards: Counted<'b>,
    plans: Option<Counted<'b>>,
    /// Whether the last line is the one that ends a backup.
    ended: bool,
}

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
            cards: Counted::default(),
            plans: None,
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
        if self.plans.is_none() && line == PLANS.as_bytes() {
            self.plans = Some(Counted::default());
            return;
        }
        let item = line.strip_suffix(b",").unwrap_or(line);
        self.plans.as_mut().unwrap_or(&mut self.cards).add(item);
    }

    fn end(&mut self) -> Result<Backup<'b>, BackupError> {
        if self.ended {
            self.plans.as_mut().unwrap_or(&mut self.cards).remove_last();
        }
        let cards = std::mem::take(&mut self.cards);
        let plans = self.plans.take().unwrap_or_default();
        backup(cards, plans, self.ended)
    }
}

fn backup<'b>(
    cards: Counted<'b>,
    plans: Counted<'b>,
    whole: bool,
) -> Result<Backup<'b>, BackupError> {
    if cards.count > MOST_CARDS {
        return Err(BackupError::TooMany { given: cards.count });
    }
    if plans.count > MOST_OWN_PLANS {
        let given = plans.count;
        return Err(BackupError::TooManyPlans { given });
    }
    Ok(Backup {
        cards: cards.texts.into_iter(),
        plans: plans.texts.into_iter(),
        whole,
    })
}

/// A backup read as JSON, however it is laid out.
#[derive(Debug)]
struct Values<'b> {
    parser: Parser<'b>,
    cards: Counted<'b>,
    plans: Counted<'b>,
}

impl<'b> Values<'b> {
    fn new(bytes: &'b [u8]) -> Self {
        Self {
            parser: Parser::spans(bytes, &["cards", "plans"]),
            cards: Counted::default(),
            plans: Counted::default(),
        }
    }

    fn step(&mut self, text: &'b [u8], bytes: usize) -> Result<Option<Backup<'b>>, BackupError> {
        let until = self.parser.at().saturating_add(bytes);
        loop {
            let left = until.saturating_sub(self.parser.at());
            match self.parser.next(left)? {
                None => return Ok(None),
                Some(Event::Item(item)) => {
                    let items = match item.list {
                        "cards" => &mut self.cards,
                        _ => &mut self.plans,
                    };
                    items.add(&text[item.span]);
                }
                Some(Event::End(Value::Object(document))) => {
                    check_document(&document)?;
                    let cards = std::mem::take(&mut self.cards);
                    let plans = std::mem::take(&mut self.plans);
                    return backup(cards, plans, true).map(Some);
                }
                Some(Event::End(_)) => return Err(BackupError::NotABackup),
            }
        }
    }
}

/// What stands beside the cards and plans.
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
    document
        .get("plans")
        .map_or(Ok(()), |plans| check_list("plans", plans))
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

    /// The text of the next card's file, for whoever reads it step by step; see [`super::OpeningCard`].
    pub fn next_text(&mut self) -> Option<&'b [u8]> {
        self.cards.next()
    }

    /// The next plan, read as its own file would be, though it may still contradict itself.
    pub fn next_plan(&mut self) -> Option<Result<KeptPlan, PlanFileError>> {
        self.plans.next().map(kept_plan_of)
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
        let text = write_backup(files.iter().map(String::as_str), []);
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
        assert_eq!(restored(write_backup([], []).as_bytes()), (true, vec![]));
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
        let text = write_backup([write_as_altered(&card(1)).as_str()], []);
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
        let text = write_backup([write(&card(1)).as_str()], []);
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
                given: MOST_CARDS + 1
            }
        );
    }
}
