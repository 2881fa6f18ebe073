//! A card's file, read step by step: no step takes long, whatever the file, so that a screen can go on
//! between them. The whole file at once is all of the steps.
//!
//! ```text
//! text ──▶ entry ──▶ its canonical bytes into the digest
//!               └──▶ the entry by its type           ──▶ card ──▶ fits the plans and the other entries
//! ```
//!
//! The entries are never held as one value: each is read, digested, typed and let go. In the canonical
//! form they stand before the plan and the version, so they are judged once everything is there.

use std::task::Poll;

use serde_json::{Map, Value};

use super::{
    FORMAT, MOST_BYTES, MOST_DEPTH, MOST_PIECE_BYTES,
    canonical::{Hash, canonical_around, write_canonical},
    fitting::{Fitting, entries_in},
    migrate::migrate,
    read::{FileError, Opened, begun, check_counts, put, typed_entry},
    strict::{Event, Item, Parser},
    write::named_digest,
};
use crate::{
    card::{Card, MOST_ENTRIES},
    entry::Entry,
};

const ENTRIES: &[&str] = &["entries"];

/// A card's file being read.
///
/// [`OpeningCard::step`] goes on for about so many bytes; there is neither a clock nor a thread here, so
/// whoever drives it says how long a step may be.
#[derive(Debug)]
pub struct OpeningCard<'b> {
    bytes: &'b [u8],
    stage: Stage<'b>,
}

#[derive(Debug)]
enum Stage<'b> {
    /// The text is being read.
    Text(Box<(Parser<'b>, Found)>),
    /// What stands before the entries in the canonical form stood after them in the file: it is read once
    /// more for the digest.
    Digest(Box<(Parser<'b>, Digest, Taking)>),
    /// The entries are put on the card.
    Taking(Box<Taking>),
    /// They are held against the plans and each other.
    Fitting(Box<(Card, Fitting, bool)>),
    /// Nothing is left to be done.
    Over,
}

/// What was found in the text so far.
#[derive(Debug, Default)]
struct Found {
    entries: Vec<Entry>,
    count: usize,
    /// How many bytes of the text are entries.
    bytes: usize,
    /// What is wrong with the first entry that cannot be on a card; those after it are not looked at.
    wrong: Option<FileError>,
    digest: Digest,
}

/// The digest of what has been read so far.
#[derive(Debug, Default)]
struct Digest {
    hash: Hash,
    /// What stands before the first entry in the canonical form, as far as it was known then.
    head: Option<String>,
    text: String,
}

/// A card and the entries that are still to be put on it.
#[derive(Debug)]
struct Taking {
    card: Card,
    entries: std::vec::IntoIter<Entry>,
    number: usize,
    /// What is wrong with the entry after them.
    wrong: Option<FileError>,
    digest_matches: bool,
    /// What the file says its digest is, and what stands around its entries in the canonical form.
    written: Option<String>,
    around: (String, String),
}

impl<'b> OpeningCard<'b> {
    /// Begins to read a file.
    pub fn new(bytes: &'b [u8]) -> Self {
        const {
            assert!(MOST_DEPTH < 128, "the parser's own limit would come first");
        }
        let parser = Parser::new(bytes, ENTRIES);
        Self {
            bytes,
            stage: Stage::Text(Box::new((parser, Found::default()))),
        }
    }

    /// Goes on for about so many bytes of the file; then it is read, or there is more to be done. Once
    /// it is read there is nothing more to be had.
    ///
    /// # Errors
    ///
    /// [`FileError`] with the place in the file; nothing is taken from it.
    pub fn step(&mut self, bytes: usize) -> Poll<Result<Opened, FileError>> {
        match self.go_on(bytes.max(1)) {
            Ok(None) => Poll::Pending,
            Ok(Some(opened)) => Poll::Ready(Ok(opened)),
            Err(error) => {
                self.stage = Stage::Over;
                Poll::Ready(Err(error))
            }
        }
    }

    /// Does all that is left.
    ///
    /// # Errors
    ///
    /// [`FileError`] with the place in the file; nothing is taken from it.
    pub fn finish(mut self) -> Result<Opened, FileError> {
        loop {
            if let Poll::Ready(read) = self.step(usize::MAX) {
                return read;
            }
        }
    }

    /// How much of the work is done, about, from 0 to 1.
    pub fn share(&self) -> f64 {
        const TEXT: f64 = 0.85;
        let share = |done: usize, of: usize| done as f64 / of.max(1) as f64;
        match &self.stage {
            Stage::Text(text) => TEXT * share(text.0.at(), self.bytes.len()),
            Stage::Digest(_) | Stage::Taking(_) => TEXT,
            Stage::Fitting(fitting) => {
                TEXT + (1.0 - TEXT) * share(fitting.1.done(), fitting.0.len())
            }
            Stage::Over => 1.0,
        }
    }

    fn go_on(&mut self, bytes: usize) -> Result<Option<Opened>, FileError> {
        match std::mem::replace(&mut self.stage, Stage::Over) {
            Stage::Text(text) => self.text(text, bytes)?,
            Stage::Digest(again) => self.digest(again, bytes)?,
            Stage::Taking(taking) => self.take(taking, bytes)?,
            Stage::Fitting(mut fitting) => {
                let (card, checks, digest_matches) = &mut *fitting;
                if checks.step(card, bytes)?.is_pending() {
                    self.stage = Stage::Fitting(fitting);
                    return Ok(None);
                }
                let digest_matches = *digest_matches;
                let card = fitting.0;
                return Ok(Some(Opened {
                    card,
                    digest_matches,
                }));
            }
            // Whoever asks once more is told that there is no card.
            Stage::Over => return Err(FileError::NotACard),
        }
        Ok(None)
    }

    fn text(
        &mut self,
        mut text: Box<(Parser<'b>, Found)>,
        mut bytes: usize,
    ) -> Result<(), FileError> {
        if self.bytes.len() > MOST_BYTES {
            let given = self.bytes.len();
            return Err(FileError::TooLarge { given });
        }
        let (parser, found) = &mut *text;
        let until = parser.at().saturating_add(bytes);
        loop {
            match parser.next(bytes)? {
                None => break,
                Some(Event::Item(item)) => found.take(parser, &item),
                Some(Event::End(Value::Object(document))) => {
                    return self.head(document, text.1);
                }
                Some(Event::End(_)) => return Err(FileError::NotACard),
            }
            bytes = until.saturating_sub(parser.at());
        }
        self.stage = Stage::Text(text);
        Ok(())
    }

    /// All of the text has been read: what is beside the entries is judged.
    fn head(&mut self, document: Map<String, Value>, found: Found) -> Result<(), FileError> {
        if document.get("format").and_then(Value::as_str) != Some(FORMAT) {
            return Err(FileError::NotACard);
        }
        let given = self.bytes.len() - found.bytes;
        if given > MOST_PIECE_BYTES {
            return Err(FileError::LargeHead { given });
        }
        let around = canonical_around(&document, "entries", "digest");
        let written = document.get("digest").and_then(Value::as_str);
        let written = written.map(str::to_owned);
        let card = begun(migrate(document)?)?;
        if found.count > MOST_ENTRIES {
            return Err(FileError::TooMany { given: found.count });
        }
        let taking = Taking {
            card,
            entries: found.entries.into_iter(),
            number: 0,
            wrong: found.wrong,
            digest_matches: false,
            written,
            around,
        };
        let digest = found.digest;
        if digest
            .head
            .as_ref()
            .is_none_or(|head| *head == taking.around.0)
        {
            self.digested(digest, taking);
        } else {
            let parser = Parser::new(self.bytes, ENTRIES);
            let digest = Digest::after(taking.around.0.clone());
            self.stage = Stage::Digest(Box::new((parser, digest, taking)));
        }
        Ok(())
    }

    fn digest(
        &mut self,
        mut again: Box<(Parser<'b>, Digest, Taking)>,
        mut bytes: usize,
    ) -> Result<(), FileError> {
        let (parser, digest, _) = &mut *again;
        let until = parser.at().saturating_add(bytes);
        loop {
            match parser.next(bytes)? {
                None => break,
                Some(Event::Item(item)) => digest.add(None, &item.value),
                Some(Event::End(_)) => {
                    let (_, digest, taking) = *again;
                    self.digested(digest, taking);
                    return Ok(());
                }
            }
            bytes = until.saturating_sub(parser.at());
        }
        self.stage = Stage::Digest(again);
        Ok(())
    }

    fn digested(&mut self, digest: Digest, mut taking: Taking) {
        let (head, tail) = std::mem::take(&mut taking.around);
        let digest = digest.end(head, &tail);
        taking.digest_matches = taking.written.as_ref() == Some(&digest);
        self.stage = Stage::Taking(Box::new(taking));
    }

    fn take(&mut self, mut taking: Box<Taking>, bytes: usize) -> Result<(), FileError> {
        for _ in 0..entries_in(bytes) {
            let Some(entry) = taking.entries.next() else {
                return self.taken(*taking);
            };
            put(&mut taking.card, taking.number, entry)?;
            taking.number += 1;
        }
        self.stage = Stage::Taking(taking);
        Ok(())
    }

    fn taken(&mut self, taking: Taking) -> Result<(), FileError> {
        if let Some(wrong) = taking.wrong {
            return Err(wrong);
        }
        let mut card = taking.card;
        check_counts(&card)?;
        card.find_plan();
        let fitting = Fitting::new(&card);
        self.stage = Stage::Fitting(Box::new((card, fitting, taking.digest_matches)));
        Ok(())
    }
}

impl Found {
    fn take(&mut self, parser: &Parser<'_>, item: &Item) {
        let number = self.count;
        self.count += 1;
        self.bytes += item.span.len();
        // Once it is no card, only whether it is JSON is still to be told.
        if self.wrong.is_some() || number >= MOST_ENTRIES {
            return;
        }
        self.digest.add(parser.members(), &item.value);
        match typed_entry(number, item.span.len(), &item.value) {
            Ok(entry) => self.entries.push(entry),
            Err(wrong) => self.wrong = Some(wrong),
        }
    }
}

impl Digest {
    /// Begins with what stands before the entries.
    fn after(head: String) -> Self {
        let mut digest = Self::default();
        digest.begin(head);
        digest
    }

    fn begin(&mut self, head: String) {
        self.hash.add(head.as_bytes());
        self.hash.add(b"[");
        self.head = Some(head);
    }

    /// Adds an entry, the first after those of the document's members that have been read.
    fn add(&mut self, before: Option<&Map<String, Value>>, entry: &Value) {
        if self.head.is_none()
            && let Some(before) = before
        {
            self.begin(canonical_around(before, "entries", "digest").0);
        }
        if !self.text.is_empty() {
            self.hash.add(b",");
        }
        self.text.clear();
        write_canonical(&mut self.text, entry);
        self.hash.add(self.text.as_bytes());
    }

    /// Ends with what stands after them; where there are none, both.
    fn end(mut self, head: String, tail: &str) -> String {
        if self.head.is_none() {
            self.begin(head);
        }
        self.hash.add(b"]");
        self.hash.add(tail.as_bytes());
        named_digest(self.hash)
    }
}
