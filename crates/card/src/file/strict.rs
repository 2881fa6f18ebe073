//! JSON from outside into a plain value, with what a plain reader lets pass refused: nesting beyond
//! [`MOST_DEPTH`](super::MOST_DEPTH), and a key that stands twice in one object.
//!
//! A number becomes the double that the canonical form writes, whole where it is whole: `1`, `1.0`
//! and `1e0` are one value, so that a file and its own copy written anew never differ.
//!
//! The parser stops after so many bytes and goes on from there, and it hands out the items of the lists
//! it is told of one by one: no text is so large that it must be read in one go or held as one value.
//! Lists, objects and their signs are its own; a text or a number within them is `serde_json`'s.

use serde::de::DeserializeOwned;
use serde_json::{Map, Number, Value};

use super::{
    MOST_DEPTH,
    canonical::whole,
    fault::{JsonFault, readable},
};

/// Text that is not JSON as it is allowed here.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}, column {column}{}: {what}", at_path(.path))]
pub struct JsonError {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// The way to the place, such as `entries[3].body`; empty at the top.
    pub path: String,
    /// What is wrong.
    pub what: JsonFault,
}

fn at_path(path: &str) -> String {
    if path.is_empty() {
        String::new()
    } else {
        format!(" ({path})")
    }
}

/// Reads JSON text into a value.
pub(super) fn parse(bytes: &[u8]) -> Result<Value, JsonError> {
    let mut parser = Parser::new(bytes, &[]);
    loop {
        if let Some(Event::End(value)) = parser.next(usize::MAX)? {
            return Ok(value);
        }
    }
}

/// The number that the canonical form writes for this one.
fn number(value: f64) -> Option<Number> {
    match whole(value) {
        Some(whole) => Some(Number::from(whole)),
        None => Number::from_f64(value),
    }
}

/// Digits of a sign that stands for a character by its number, `\u00e9`.
const HEX_DIGITS: usize = 4;

/// What the parser has come upon.
#[derive(Debug)]
pub(super) enum Event {
    /// An item of a list that is handed out. It is not in the list any more.
    Item(Item),
    /// The whole text, but for what was handed out.
    End(Value),
}

/// An item of a list that is handed out.
#[derive(Debug)]
pub(super) struct Item {
    /// The member of the document that the list is.
    pub list: &'static str,
    /// Where in the text it stands.
    pub span: std::ops::Range<usize>,
    /// What it is; `null` where the parser only looks for spans.
    pub value: Value,
}

/// Reads JSON text step by step.
#[derive(Debug)]
pub(super) struct Parser<'b> {
    bytes: &'b [u8],
    at: usize,
    /// The lists and objects that the place stands in, outermost first.
    within: Vec<Frame>,
    next: Next,
    /// The members of the document whose items are handed out where they are lists.
    handed: &'static [&'static str],
    /// Whether what is handed out is only looked through and not kept.
    spans_only: bool,
}

/// A list or an object that has begun.
#[derive(Debug)]
enum Frame {
    List {
        items: Vec<Value>,
        count: usize,
        /// The name and the start of the item under way, where the items are handed out.
        handed: Option<(&'static str, usize)>,
    },
    Object {
        members: Map<String, Value>,
        /// The member that is being read.
        key: Option<String>,
    },
}

/// What may stand next.
#[derive(Clone, Copy, Debug)]
enum Next {
    Value,
    FirstItem,
    CommaOrListEnd,
    FirstKey,
    CommaOrObjectEnd,
    Colon,
    End,
}

impl<'b> Parser<'b> {
    /// At the start of a text. Of the document's members, items of the lists named in `handed` are
    /// handed out.
    pub(super) fn new(bytes: &'b [u8], handed: &'static [&'static str]) -> Self {
        Self {
            bytes,
            at: 0,
            within: Vec::new(),
            next: Next::Value,
            handed,
            spans_only: false,
        }
    }

    /// The same, looking only for where the items stand. What is in them is no more than well formed:
    /// keys that stand twice are for whoever reads them.
    pub(super) fn spans(bytes: &'b [u8], handed: &'static [&'static str]) -> Self {
        Self {
            spans_only: true,
            ..Self::new(bytes, handed)
        }
    }

    /// How many bytes have been read.
    pub(super) fn at(&self) -> usize {
        self.at
    }

    /// Whether the text is a document, as far as that shows: it begins as an object.
    pub(super) fn members(&self) -> Option<&Map<String, Value>> {
        match self.within.first() {
            Some(Frame::Object { members, .. }) => Some(members),
            _ => None,
        }
    }

    /// Goes on for about so many bytes, or up to the next event; none where the bytes came first.
    ///
    /// A text or a number is read whole.
    pub(super) fn next(&mut self, bytes: usize) -> Result<Option<Event>, JsonError> {
        let until = self.at.saturating_add(bytes);
        while self.at < until {
            let event = self.token()?;
            if event.is_some() {
                return Ok(event);
            }
        }
        Ok(None)
    }

    fn token(&mut self) -> Result<Option<Event>, JsonError> {
        let byte = self.peek();
        match self.next {
            Next::Value => self.value(byte),
            Next::FirstItem if byte == Some(b']') => self.close(),
            Next::FirstItem if byte.is_some() => self.value(byte),
            Next::CommaOrListEnd => match byte {
                Some(b']') => self.close(),
                Some(b',') => {
                    self.at += 1;
                    if self.peek() == Some(b']') {
                        return self.refuse(JsonFault::Comma);
                    }
                    self.next = Next::Value;
                    Ok(None)
                }
                _ => self.refuse_unless_short(byte, JsonFault::Unended { end: ']' }),
            },
            Next::FirstKey if byte == Some(b'}') => self.close(),
            Next::FirstKey => self.key(byte),
            Next::CommaOrObjectEnd => match byte {
                Some(b'}') => self.close(),
                Some(b',') => {
                    self.at += 1;
                    match self.peek() {
                        Some(b'}') => self.refuse(JsonFault::Comma),
                        byte => self.key(byte),
                    }
                }
                _ => self.refuse_unless_short(byte, JsonFault::Unended { end: '}' }),
            },
            Next::Colon if byte == Some(b':') => {
                self.at += 1;
                self.next = Next::Value;
                Ok(None)
            }
            Next::Colon => self.refuse_unless_short(byte, JsonFault::Sign { sign: ':' }),
            Next::FirstItem => self.refuse(JsonFault::CutShort),
            Next::End if byte.is_none() => Ok(None),
            Next::End => self.refuse(JsonFault::Trailing),
        }
    }

    /// The next byte that is no white space.
    fn peek(&mut self) -> Option<u8> {
        loop {
            match self.bytes.get(self.at) {
                Some(b' ' | b'\n' | b'\t' | b'\r') => self.at += 1,
                byte => return byte.copied(),
            }
        }
    }

    fn value(&mut self, byte: Option<u8>) -> Result<Option<Event>, JsonError> {
        if let Some(Frame::List {
            handed: Some((_, start)),
            ..
        }) = self.within.last_mut()
        {
            *start = self.at;
        }
        match byte {
            Some(b'[') => {
                let handed = self.handed_here().map(|name| (name, 0));
                let (items, count) = (Vec::new(), 0);
                self.enter(
                    Frame::List {
                        items,
                        count,
                        handed,
                    },
                    Next::FirstItem,
                )
            }
            Some(b'{') => {
                let (members, key) = (Map::new(), None);
                self.enter(Frame::Object { members, key }, Next::FirstKey)
            }
            Some(b'"') => {
                let text = self.text()?;
                self.complete(text.into())
            }
            Some(b'-' | b'0'..=b'9') => {
                let number = self.number()?;
                self.complete(Value::Number(number))
            }
            Some(b't') => self.word(b"true", Value::Bool(true)),
            Some(b'f') => self.word(b"false", Value::Bool(false)),
            Some(b'n') => self.word(b"null", Value::Null),
            _ => self.refuse_unless_short(byte, JsonFault::Value),
        }
    }

    /// The name of the list that begins here, where its items are handed out.
    fn handed_here(&self) -> Option<&'static str> {
        match &self.within[..] {
            [Frame::Object { key: Some(key), .. }] => {
                self.handed.iter().find(|name| *name == key).copied()
            }
            _ => None,
        }
    }

    fn enter(&mut self, frame: Frame, next: Next) -> Result<Option<Event>, JsonError> {
        if self.within.len() == MOST_DEPTH {
            return self.refuse(JsonFault::Deep);
        }
        self.at += 1;
        self.within.push(frame);
        self.next = next;
        Ok(None)
    }

    fn close(&mut self) -> Result<Option<Event>, JsonError> {
        self.at += 1;
        let value = match self.within.pop() {
            Some(Frame::List { items, .. }) => Value::Array(items),
            Some(Frame::Object { members, .. }) => Value::Object(members),
            None => Value::Null,
        };
        self.complete(value)
    }

    /// Puts a value where it belongs.
    fn complete(&mut self, value: Value) -> Result<Option<Event>, JsonError> {
        let (at, keep) = (self.at, self.keeps());
        match self.within.last_mut() {
            None => return self.end(value),
            Some(Frame::List {
                items,
                count,
                handed,
            }) => {
                self.next = Next::CommaOrListEnd;
                *count += 1;
                match *handed {
                    Some((list, start)) => {
                        let span = start..at;
                        return Ok(Some(Event::Item(Item { list, span, value })));
                    }
                    None if keep => items.push(value),
                    None => {}
                }
            }
            Some(Frame::Object { members, key }) => {
                self.next = Next::CommaOrObjectEnd;
                if let Some(key) = key.take().filter(|_| keep) {
                    members.insert(key, value);
                }
            }
        }
        Ok(None)
    }

    /// Whether what stands here is kept.
    fn keeps(&self) -> bool {
        !self.spans_only
            || !self.within.iter().any(|frame| {
                matches!(
                    frame,
                    Frame::List {
                        handed: Some(_),
                        ..
                    }
                )
            })
    }

    fn end(&mut self, value: Value) -> Result<Option<Event>, JsonError> {
        self.next = Next::End;
        match self.peek() {
            None => Ok(Some(Event::End(value))),
            Some(_) => self.refuse(JsonFault::Trailing),
        }
    }

    fn key(&mut self, byte: Option<u8>) -> Result<Option<Event>, JsonError> {
        if byte != Some(b'"') {
            return self.refuse_unless_short(byte, JsonFault::Key);
        }
        let text = self.text()?;
        if let Some(Frame::Object { members, key }) = self.within.last_mut() {
            if members.contains_key(&text) {
                let key = readable(&text);
                return Err(self.error(self.at, JsonFault::Twice { key }));
            }
            *key = Some(text);
        }
        self.next = Next::Colon;
        Ok(None)
    }

    /// A text, from its first quotation mark.
    fn text(&mut self) -> Result<String, JsonError> {
        let from = self.at + 1;
        let rest = self.bytes.get(from..).unwrap_or_default();
        let plain = |byte: &u8| matches!(byte, b'"' | b'\\' | 0..b' ');
        if let Some(length) = rest.iter().position(plain)
            && rest[length] == b'"'
            && let Ok(text) = std::str::from_utf8(&rest[..length])
        {
            self.at = from + length + 1;
            return Ok(text.to_owned());
        }
        // What has signs before characters in it, or is none.
        let end = self.at + 1 + escaped_length(rest);
        self.leaf(end)
    }

    fn number(&mut self) -> Result<Number, JsonError> {
        let rest = &self.bytes[self.at..];
        let length = number_length(rest).unwrap_or_else(|| {
            // No number: what is wrong with it is told at the first byte that cannot be in one.
            let part = |byte: &u8| matches!(byte, b'0'..=b'9' | b'+' | b'-' | b'.' | b'e' | b'E');
            rest.iter().take_while(|byte| part(byte)).count() + 1
        });
        let value: f64 = self.leaf(self.at + length)?;
        number(value).ok_or_else(|| self.error(self.at, JsonFault::Large))
    }

    /// A text or a number that ends there, by `serde_json`, with the error where it is none.
    fn leaf<T: DeserializeOwned>(&mut self, end: usize) -> Result<T, JsonError> {
        let end = end.min(self.bytes.len());
        let bytes = &self.bytes[self.at..end];
        let text = std::str::from_utf8(bytes);
        // What is no text is read with other signs in their places, as something before them may be wrong.
        let read = match text {
            Ok(text) => serde_json::from_str(text),
            Err(_) => serde_json::from_str(&plain_ascii(bytes)),
        };
        match (read, text) {
            (Ok(_), Err(error)) => {
                let at = self.at + error.valid_up_to() + 1;
                Err(self.error(at, JsonFault::Characters))
            }
            (Ok(read), Ok(_)) => {
                self.at = end;
                Ok(read)
            }
            // A sign such as `\u` runs over the text's end: what stands behind is read as part of it.
            (Err(error), _) if error.is_eof() && end < self.bytes.len() => {
                self.leaf(end + HEX_DIGITS)
            }
            (Err(error), _) => {
                let from = self.at;
                let lines = self.bytes[from..].split_inclusive(|byte| *byte == b'\n');
                let before = lines.take(error.line().saturating_sub(1)).map(<[u8]>::len);
                let at = from + before.sum::<usize>() + error.column();
                Err(self.error(at, JsonFault::of(&error)))
            }
        }
    }

    fn word(&mut self, word: &[u8], value: Value) -> Result<Option<Event>, JsonError> {
        for wanted in word {
            match self.bytes.get(self.at) {
                Some(byte) if byte == wanted => self.at += 1,
                Some(_) => return self.refuse(JsonFault::Value),
                None => return self.refuse(JsonFault::CutShort),
            }
        }
        self.complete(value)
    }

    /// Refuses the next byte.
    fn refuse<T>(&self, what: JsonFault) -> Result<T, JsonError> {
        Err(self.error(self.at + 1, what))
    }

    fn refuse_unless_short<T>(&self, byte: Option<u8>, what: JsonFault) -> Result<T, JsonError> {
        self.refuse(byte.map_or(JsonFault::CutShort, |_| what))
    }

    /// What is wrong after that many bytes.
    fn error(&self, at: usize, what: JsonFault) -> JsonError {
        let before = &self.bytes[..at.min(self.bytes.len())];
        let lines = before.split(|byte| *byte == b'\n');
        let (line, column) = lines.fold((0, 0), |(lines, _), line| (lines + 1, line.len()));
        JsonError {
            line,
            column,
            path: self.path(),
            what,
        }
    }

    /// The way to the place.
    fn path(&self) -> String {
        let steps = self.within.iter().filter_map(|frame| match frame {
            Frame::List { count, .. } => Some(format!("[{count}]")),
            Frame::Object { key, .. } => key.as_ref().map(|key| format!(".{key}")),
        });
        let way: String = steps.collect();
        readable(way.trim_start_matches('.'))
    }
}

/// Bytes as a text of as many, with a `?` for each that is not ASCII.
fn plain_ascii(bytes: &[u8]) -> String {
    let signs = bytes.iter().map(|byte| {
        if byte.is_ascii() {
            char::from(*byte)
        } else {
            '?'
        }
    });
    signs.collect()
}

/// How many bytes a text goes on for after its first quotation mark, its last one among them.
fn escaped_length(rest: &[u8]) -> usize {
    let mut at = 0;
    while let Some(byte) = rest.get(at) {
        at += match byte {
            b'"' => return at + 1,
            b'\\' => 2,
            _ => 1,
        };
    }
    rest.len()
}

/// How many bytes a number goes on for; none where it is none.
fn number_length(rest: &[u8]) -> Option<usize> {
    let digits = |from: usize| {
        let rest = rest.get(from..).unwrap_or_default();
        rest.iter().take_while(|byte| byte.is_ascii_digit()).count()
    };
    let some_digits = |from| Some(digits(from)).filter(|digits| *digits > 0);
    let mut at = usize::from(rest.first() == Some(&b'-'));
    let count = some_digits(at)?;
    if rest[at] == b'0' && count > 1 {
        return None;
    }
    at += count;
    if rest.get(at) == Some(&b'.') {
        at += 1 + some_digits(at + 1)?;
    }
    if let Some(b'e' | b'E') = rest.get(at) {
        at += 1;
        at += usize::from(matches!(rest.get(at), Some(b'+' | b'-')));
        at += some_digits(at)?;
    }
    Some(at)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// What is read of a text in steps of so many bytes.
    fn stepped(bytes: &[u8], step: usize) -> Result<Value, JsonError> {
        let mut parser = Parser::new(bytes, &["entries"]);
        let mut entries = Vec::new();
        loop {
            match parser.next(step)? {
                None => {}
                Some(Event::Item(item)) => {
                    let text = &bytes[item.span];
                    assert_eq!(parse(text).as_ref(), Ok(&item.value));
                    entries.push(item.value);
                }
                Some(Event::End(mut value)) => {
                    if let Some(Value::Array(list)) = value.get_mut("entries") {
                        list.append(&mut entries);
                    }
                    return Ok(value);
                }
            }
        }
    }

    /// `serde_json`, which knows neither of keys that stand twice nor of our depth, finds the same fault
    /// in the same place.
    fn agrees(bytes: &[u8]) -> Result<(), TestCaseError> {
        let ours = parse(bytes);
        for step in [1, 7, 1000] {
            prop_assert_eq!(&stepped(bytes, step), &ours);
        }
        match (ours, serde_json::from_slice::<Value>(bytes)) {
            (Err(ours), _) if matches!(ours.what, JsonFault::Deep | JsonFault::Twice { .. }) => {}
            (Err(ours), Err(theirs)) => {
                prop_assert_eq!(&ours.what, &JsonFault::of(&theirs));
                if ours.what == JsonFault::Characters && bytes.contains(&b'\\') {
                    // Of a text with signs before characters theirs is near the place.
                    return Ok(());
                }
                let place = (theirs.line(), theirs.column());
                prop_assert_eq!((ours.line, ours.column), place, "{}", theirs);
            }
            (Ok(ours), Ok(theirs)) => prop_assert_eq!(
                crate::file::canonical(&ours),
                crate::file::canonical(&theirs)
            ),
            (ours, theirs) => prop_assert!(false, "{ours:?} and {theirs:?}"),
        }
        Ok(())
    }

    const PIECES: [&str; 40] = [
        "[",
        "]",
        "{",
        "}",
        ",",
        ":",
        " ",
        "\n",
        "\"",
        "\"a\"",
        "\"entries\"",
        "\"\\n\"",
        "\\",
        "\\u00e9",
        "\\ud83d\\ude00",
        "\\ud83d",
        "é",
        "\t",
        "true",
        "false",
        "null",
        "tru",
        "nulL",
        "0",
        "1",
        "01",
        "-",
        "-0",
        "12.5",
        "1.",
        "1e5",
        "1e",
        "1E+7",
        "1e999",
        ".5",
        "+1",
        "NaN",
        "\u{1}",
        "\"b\":",
        "[]",
    ];

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(2000))]

        #[test]
        fn pieces_of_json_in_any_order(
            pieces in prop::collection::vec(prop::sample::select(&PIECES[..]), 0..14),
        ) {
            agrees(pieces.concat().as_bytes())?;
        }

        #[test]
        fn a_document_with_bytes_changed(
            changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..3),
        ) {
            let mut bytes = br#"{"a":[1,-2.5e-3,true],"entries":[{"b":"c\td"},
                null,[{}],"x"],"z":{"y":{}, "entries":[7]}}"#.to_vec();
            for (place, byte) in changes {
                let place = place.index(bytes.len());
                bytes[place] = byte;
            }
            agrees(&bytes)?;
        }
    }

    /// What stands behind a text may complete a sign that its end cuts short, but not make it one.
    #[test]
    fn a_sign_that_runs_over_the_end_of_its_text_is_no_sign() {
        for text in [
            r#"["c\ud"]"#,
            r#"["c\ud"],"b"]"#,
            r#"["\ud83d\u"    ]"#,
            r#"["\u"]"#,
            r#"["\ud83d"]"#,
        ] {
            agrees(text.as_bytes()).unwrap();
        }
        assert_eq!(
            parse(br#"["c\ud", 1]"#).unwrap_err().what,
            JsonFault::Escape
        );
    }

    #[test]
    fn spans_are_found_without_what_is_in_them() {
        let text = br#" {"cards": [ {"a":1,"a":2} , 7],"plans":[], "x": [1]} "#;
        let mut parser = Parser::spans(text, &["cards", "plans"]);
        let mut spans = Vec::new();
        let rest = loop {
            match parser.next(1).unwrap() {
                Some(Event::Item(item)) => spans.push((item.list, &text[item.span])),
                Some(Event::End(rest)) => break rest,
                None => {}
            }
        };
        let wanted: [(&str, &[u8]); 2] = [("cards", b"{\"a\":1,\"a\":2}"), ("cards", b"7")];
        assert_eq!(spans, wanted);
        assert_eq!(rest.to_string(), r#"{"cards":[],"plans":[],"x":[1]}"#);
    }
}
