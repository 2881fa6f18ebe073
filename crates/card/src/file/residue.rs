//! What a newer version wrote and this one does not know, and what another program spelt otherwise.
//!
//! A value as it came is laid beside the same value as this version writes it; members that only the
//! first has, and texts that it spells otherwise (an instant with an offset), are the residue. Writing
//! lays the residue over the value again.

use serde_json::{Map, Value};

/// Members of `came` that `known` lacks and texts that it spells otherwise, at any depth; nothing where
/// there are none.
pub(super) fn residue(came: &Value, known: &Value) -> Option<Value> {
    match (came, known) {
        (Value::Object(came), Value::Object(known)) => {
            let rest: Map<String, Value> = came
                .iter()
                .filter_map(|(key, value)| {
                    let rest = match known.get(key) {
                        Some(known) => residue(value, known)?,
                        None => value.clone(),
                    };
                    Some((key.clone(), rest))
                })
                .collect();
            (!rest.is_empty()).then_some(Value::Object(rest))
        }
        (Value::Array(came), Value::Array(known)) if came.len() == known.len() => {
            let rest: Vec<Value> = came
                .iter()
                .zip(known)
                .map(|(came, known)| residue(came, known).unwrap_or(Value::Null))
                .collect();
            rest.iter()
                .any(|rest| !rest.is_null())
                .then_some(Value::Array(rest))
        }
        (Value::String(came), Value::String(known)) if came != known => {
            Some(Value::String(came.clone()))
        }
        _ => None,
    }
}

/// Lays a residue over the value it was left of.
pub(super) fn overlay(known: &mut Value, rest: &Value) {
    match (known, rest) {
        (Value::Object(known), Value::Object(rest)) => {
            for (key, rest) in rest {
                match known.get_mut(key) {
                    Some(known) => overlay(known, rest),
                    None => {
                        known.insert(key.clone(), rest.clone());
                    }
                }
            }
        }
        (Value::Array(known), Value::Array(rest)) => {
            known
                .iter_mut()
                .zip(rest)
                .for_each(|(known, rest)| overlay(known, rest));
        }
        (Value::String(known), Value::String(rest)) => known.clone_from(rest),
        _ => {}
    }
}
