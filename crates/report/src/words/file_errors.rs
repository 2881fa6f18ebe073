//! What is wrong in a file, by kind: members, keys and values are named as the file has them, the
//! sentence about them is the reader's.

use ringland_card::{
    file::{FieldFault, JsonError, JsonFault, MOST_DEPTH, Shape},
    gauging::MOST_DIGITS,
    ids::LONGEST_NAME,
};

use super::{Words, catalogue::words};

words! {
    /// What is wrong in a file.
    FileErrors {
        no_value = "this is not a JSON value";
        no_key = "a key must be a text in quotes";
        sign(sign: char) = "allowed here is `{sign}`";
        unended(end: char) = "allowed here is `,` or `{end}`";
        comma = "there is a comma too many";
        trailing = "there is more after the end";
        control = "a text has a control character in it, such as a line break";
        escape = "a text has a `\\` in it that means nothing";
        characters = "a text has bytes in it that are no characters: allowed is UTF-8";
        number = "a number is not written as JSON writes numbers";
        large = "a number is too large to be kept";
        deep(most: usize) = "nested deeper than {most}";
        key_twice(key: &str) = "the key `{key}` stands twice";
        missing(name: &str) = "the member `{name}` is missing";
        shape(wanted: &str, given: &str) = "it must be {wanted}, not {given}";
        not_whole(given: &str) = "{given} is not a whole number";
        out_of_range(given: i64, low: i64, high: i64) = "{given} is out of range: allowed is {low} to {high}";
        unknown(given: &str, allowed: &str) = "`{given}` is not one of those allowed: {allowed}";
        one_member(given: usize) = "it has {given} members: allowed is 1";
        length(given: usize, wanted: usize) = "it has {given} items: allowed is {wanted}";
        not_a_name(given: &str, most: usize) = "`{given}` is not a name: allowed are 1 to {most} letters a-z A-Z, digits, `_`, `-` and `.`, in steps parted by `/`";
        not_a_sha256(given: &str) = "`{given}` is not a SHA-256: allowed are 64 digits 0-9 a-f";
        not_a_uuid(given: &str) = "`{given}` is not a UUID: allowed are 8-4-4-4-12 digits 0-9 a-f";
        not_an_instant(given: &str) = "`{given}` is not an instant: allowed is RFC 3339, such as `2026-11-24T12:22:07Z`, in the years 0000 to 9999";
        not_a_decimal(given: &str, most: usize) = "`{given}` is not a number as text: allowed are up to {most} digits with one `.`";
        version(known: u64) = "it must be a whole number from 1 to {known}";
        null = "null";
        truth = "true or false";
        a_number = "a number";
        a_text = "a text";
        a_list = "a list";
        an_object = "an object";
    }
}

impl Words {
    /// What makes a text no JSON, and where.
    pub(super) fn json_error(&self, error: &JsonError) -> String {
        let e = &self.file_errors;
        let what = match &error.what {
            JsonFault::CutShort => return self.errors.cut_off(error.line, error.column),
            JsonFault::Value => e.no_value.to_owned(),
            JsonFault::Key => e.no_key.to_owned(),
            JsonFault::Sign { sign } => e.sign(*sign),
            JsonFault::Unended { end } => e.unended(*end),
            JsonFault::Comma => e.comma.to_owned(),
            JsonFault::Trailing => e.trailing.to_owned(),
            JsonFault::Control => e.control.to_owned(),
            JsonFault::Escape => e.escape.to_owned(),
            JsonFault::Characters => e.characters.to_owned(),
            JsonFault::Number => e.number.to_owned(),
            JsonFault::Large => e.large.to_owned(),
            JsonFault::Deep => e.deep(MOST_DEPTH),
            JsonFault::Twice { key } => e.key_twice(key),
            JsonFault::Other { text } => text.clone(),
        };
        self.errors.not_json(error.line, error.column, &what)
    }

    /// What is wrong with a member, and where.
    pub(super) fn field_error(&self, place: &str, fault: &FieldFault) -> String {
        let e = &self.file_errors;
        let what = match fault {
            FieldFault::Missing { name } => e.missing(name),
            FieldFault::Shape { wanted, given } => e.shape(self.shape(*wanted), self.shape(*given)),
            FieldFault::NotWhole { given } => e.not_whole(given),
            FieldFault::OutOfRange { given, low, high } => e.out_of_range(*given, *low, *high),
            FieldFault::Unknown { given, allowed } => {
                let allowed: Vec<String> = allowed.iter().map(|it| format!("`{it}`")).collect();
                e.unknown(given, &allowed.join(", "))
            }
            FieldFault::OneMember { given } => e.one_member(*given),
            FieldFault::Length { given, wanted } => e.length(*given, *wanted),
            FieldFault::Name { given } => e.not_a_name(given, LONGEST_NAME),
            FieldFault::Sha256 { given } => e.not_a_sha256(given),
            FieldFault::Uuid { given } => e.not_a_uuid(given),
            FieldFault::Instant { given } => e.not_an_instant(given),
            FieldFault::Decimal { given } => e.not_a_decimal(given, MOST_DIGITS),
            FieldFault::Version { known } => e.version(*known),
            FieldFault::Other { text } => text.clone(),
        };
        if place.is_empty() {
            self.errors.of_file(&what)
        } else {
            self.errors.field(place, &what)
        }
    }

    fn shape(&self, shape: Shape) -> &'static str {
        let e = &self.file_errors;
        match shape {
            Shape::Null => e.null,
            Shape::Truth => e.truth,
            Shape::Number => e.a_number,
            Shape::Text => e.a_text,
            Shape::List => e.a_list,
            Shape::Object => e.an_object,
        }
    }
}
