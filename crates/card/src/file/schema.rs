//! The published schema of the card's file: JSON Schema 2020-12, generated from the types.
//!
//! It says what one value may be: kinds, names, ranges, lengths. What takes the whole file to know it
//! leaves to the reader: whether a position is in the plan, whether shares come to more than 100 %,
//! whether weights are all zero, whether the digest is right.

use schemars::{JsonSchema, Schema, generate::SchemaSettings};
use serde_json::{Value, json};

use super::{FORMAT, KINDS, Origin, PLAN_FORMAT, PLAN_VERSION, VERSION};
use crate::{card::MOST_ENTRIES, entry::Entry, ids::CardId, plan::Plan};

/// The schema of a card's file.
///
/// Unknown members are allowed wherever the format may grow, and entries of unknown kinds; both are
/// kept through a round trip.
pub fn schema() -> Value {
    SchemaSettings::draft2020_12()
        .into_generator()
        .into_root_schema_for::<File>()
        .to_value()
}

/// A teardown card: an inspection plan and the entries made under it.
///
/// The file is in the canonical form of RFC 8785. Everything that the card shows follows from the
/// plan and the entries.
#[derive(JsonSchema)]
#[schemars(title = "Ringland card", extend("$id" = "urn:ringland:card:2"))]
#[expect(
    dead_code,
    reason = "only its shape is used; reading goes through a plain value"
)]
struct File {
    /// The name of the format.
    #[schemars(extend("const" = FORMAT))]
    format: String,
    /// The version of the format.
    #[schemars(extend("const" = VERSION))]
    version: u64,
    /// The card's id.
    id: CardId,
    /// The plan that the card began with.
    plan: Plan,
    /// The entries; their place in the list means nothing.
    #[schemars(length(max = MOST_ENTRIES))]
    entries: Vec<Entry>,
    /// SHA-256 over the canonical form of the file without this member.
    #[schemars(regex(pattern = r"^sha256:[0-9a-f]{64}$"))]
    digest: String,
}

/// The schema of a plan's file.
pub fn plan_schema() -> Value {
    SchemaSettings::draft2020_12()
        .into_generator()
        .into_root_schema_for::<PlanDocument>()
        .to_value()
}

/// An inspection plan by itself, with what it was derived from.
///
/// The file is in the canonical form of RFC 8785.
#[derive(JsonSchema)]
#[schemars(title = "Ringland plan", extend("$id" = "urn:ringland:plan:2"))]
#[expect(
    dead_code,
    reason = "only its shape is used; reading goes through a plain value"
)]
struct PlanDocument {
    /// The name of the format.
    #[schemars(extend("const" = PLAN_FORMAT))]
    format: String,
    /// The version of the format.
    #[schemars(extend("const" = PLAN_VERSION))]
    version: u64,
    /// The plan.
    plan: Plan,
    /// The plan that this one was derived from.
    #[schemars(default)]
    derived_from: Option<Origin>,
    /// SHA-256 over the canonical form of the file without this member.
    #[schemars(regex(pattern = r"^sha256:[0-9a-f]{64}$"))]
    digest: String,
}

/// A percentage.
#[derive(JsonSchema)]
#[schemars(inline)]
#[expect(dead_code, reason = "only its shape is used")]
pub(crate) struct Percent(#[schemars(range(min = 0.0, max = 100.0))] f64);

/// A weight or a factor.
#[derive(JsonSchema)]
#[schemars(inline)]
#[expect(dead_code, reason = "only its shape is used")]
pub(crate) struct Weight(#[schemars(range(min = 0.0, max = 1e6))] f64);

/// Lets a body be of a kind that this version does not know.
pub(crate) fn with_other_kinds(schema: &mut Schema) {
    if let Some(kinds) = schema.get_mut("oneOf").and_then(Value::as_array_mut) {
        kinds.push(json!({
            "description": "A kind of a newer version of the format, kept as it came.",
            "type": "object",
            "required": ["kind"],
            "properties": { "kind": { "type": "string", "not": { "enum": KINDS } } },
        }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// To write it anew: `SCHEMA=write cargo test -p ringland-card --features schema`.
    #[test]
    fn the_checked_in_schemas_are_up_to_date() {
        for (name, now) in [
            ("card.schema.json", schema()),
            ("plan.schema.json", plan_schema()),
        ] {
            let path = [env!("CARGO_MANIFEST_DIR"), "/", name].concat();
            if std::env::var_os("SCHEMA").is_some_and(|what| what == "write") {
                std::fs::write(&path, format!("{now:#}\n")).unwrap();
            }
            let stored: Value = serde_json::from_slice(&std::fs::read(path).unwrap()).unwrap();
            assert_eq!(stored, now, "{name}");
        }
    }
}
