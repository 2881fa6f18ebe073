//! What is wrong in a file.

use ringland_card::{
    Card, Layout,
    file::{BackupError, FieldFault, FileError, JsonError, JsonFault, Shape, read, write},
    ids::CardId,
    plan::{Depth, builtin},
};

use super::*;

fn json_faults() -> Vec<JsonFault> {
    vec![
        JsonFault::Value,
        JsonFault::Key,
        JsonFault::Sign { sign: ':' },
        JsonFault::Unended { end: ']' },
        JsonFault::Comma,
        JsonFault::Trailing,
        JsonFault::Control,
        JsonFault::Escape,
        JsonFault::Characters,
        JsonFault::Number,
        JsonFault::Large,
        JsonFault::Deep,
        JsonFault::Twice {
            key: "rater".to_owned(),
        },
    ]
}

fn field_faults() -> Vec<FieldFault> {
    let given = || "x y".to_owned();
    let shape = |wanted, given| FieldFault::Shape { wanted, given };
    vec![
        FieldFault::Missing { name: "rater" },
        shape(Shape::Null, Shape::Truth),
        shape(Shape::Number, Shape::Text),
        shape(Shape::List, Shape::Object),
        FieldFault::NotWhole {
            given: "2.5".to_owned(),
        },
        FieldFault::OutOfRange {
            given: 256,
            low: 0,
            high: 255,
        },
        FieldFault::Unknown {
            given: given(),
            allowed: &["inline", "vee"],
        },
        FieldFault::OneMember { given: 2 },
        FieldFault::Length {
            given: 5,
            wanted: 6,
        },
        FieldFault::Name { given: given() },
        FieldFault::Sha256 { given: given() },
        FieldFault::Uuid { given: given() },
        FieldFault::Instant { given: given() },
        FieldFault::Decimal {
            given: "1,5".to_owned(),
        },
        FieldFault::Version { known: 2 },
    ]
}

fn not_json(what: JsonFault) -> FileError {
    FileError::Json(JsonError {
        line: 2,
        column: 7,
        path: String::new(),
        what,
    })
}

fn at(place: &str, why: FieldFault) -> FileError {
    FileError::Field {
        place: place.to_owned(),
        why,
    }
}

/// The core says it in English already, for a terminal; the catalogue says it the same.
#[test]
fn the_english_is_that_of_the_core() {
    for fault in json_faults() {
        assert_eq!(
            EN.file_error(&not_json(fault.clone())),
            format!("The file cannot be read at line 2, column 7: {fault}")
        );
    }
    for fault in field_faults() {
        assert_eq!(
            EN.file_error(&at("plan.layout", fault.clone())),
            format!("In the file, at plan.layout: {fault}")
        );
        assert_eq!(
            EN.file_error(&at("", fault.clone())),
            format!("In the file: {fault}")
        );
        let error = BackupError::Field {
            place: "version",
            why: fault.clone(),
        };
        assert_eq!(
            EN.backup_error(&error),
            format!("In the file, at version: {fault}")
        );
    }
}

#[test]
fn no_language_leaves_english_in_it() {
    let errors = json_faults()
        .into_iter()
        .map(not_json)
        .chain(field_faults().into_iter().map(|fault| at("", fault)));
    for error in errors {
        let said = words(Language::Spanish).file_error(&error);
        for word in [" is ", " it ", " the ", "text ", "number", "allowed"] {
            assert!(!said.contains(word), "{said}");
        }
    }
}

/// What a real file is refused for, in both languages.
#[test]
fn a_real_file_is_refused_in_the_readers_language() {
    let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
    let file = write(&Card::new(CardId::v7(1, [1; 10]), plan).unwrap());
    let said = |from: &str, to: &str| {
        let changed = file.replacen(from, to, 1);
        assert_ne!(changed, file, "{from}");
        let error = read(changed.as_bytes()).unwrap_err();
        Language::ALL.map(|language| words(language).file_error(&error))
    };
    assert_eq!(
        said("\"mains\":7", "\"mains\":700"),
        [
            "In the file, at plan.layout.mains: 700 is out of range: allowed is 0 to 255",
            "En el archivo, en plan.layout.mains: 700 está fuera de rango; se admite de 0 a 255"
        ]
    );
    assert_eq!(
        said("\"arrangement\":\"inline\"", "\"arrangement\":\"flat\""),
        [
            "In the file, at plan.layout.arrangement: `flat` is not one of those allowed: `inline`, `vee`",
            "En el archivo, en plan.layout.arrangement: `flat` no es de los que se admiten: `inline`, `vee`"
        ]
    );
    assert_eq!(
        said("\"entries\":[]", "\"entrees\":[]"),
        [
            "In the file: the member `entries` is missing",
            "En el archivo: falta el miembro `entries`"
        ]
    );
    assert_eq!(
        said("\"entries\":[]", "\"entries\":[{}]"),
        [
            "In the file, at entries[0]: the member `body` is missing",
            "En el archivo, en entries[0]: falta el miembro `body`"
        ]
    );
    assert_eq!(
        said("\"entries\":[]", "\"entries\":[}"),
        [
            "The file cannot be read at line 1, column 96: this is not a JSON value",
            "El archivo no se puede leer en la línea 1, columna 96: esto no es un valor JSON"
        ]
    );
}
