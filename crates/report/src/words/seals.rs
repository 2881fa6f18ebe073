//! Words of seals.

use ringland_card::{
    card::LONGEST_RATER,
    seal::{SealFault, SealKeyError},
};

use super::{Words, catalogue::words};

words! {
    /// Seals.
    Seals {
        title = "Seals";
        seal = "Seal…";
        lead = "A seal says: this is what I hand over. Whatever is entered later stands beside it and is told apart";
        proves = "It shows that whoever has the key covered just these entries, and that none of them was changed since";
        not = "It does not show who that is, that a clock was right, or that what was entered is true";
        whose = "Who seals";
        make = "Make a key and seal";
        with_key(name: &str, word: &str) = "With the key of {name}: {word}";
        now = "Seal the card";
        sealing = "Sealing…";
        save_key = "Save the key as a file";
        save_key_hint = "The key is kept on this tablet only. Whoever has it, or this tablet, can seal in that name: keep its file where nobody else reads it";
        take_key = "Take a key from a file";
        key_saved(name: &str) = "{name} saved. Keep it where nobody else reads it";
        done = "Sealed. Save the file now, so that the seal goes with it";
        by(name: &str, when: &str) = "Sealed by {name}, {when}";
        covers(entries: &str) = "{entries} entries covered";
        holds = "Holds: nothing that it covers was changed";
        broken(why: &str) = "Broken: {why}";
        none_after = "Nothing was entered after it";
        after(n: usize) = "{n} {n?entry was:entries were} made after it";
        key(word: &str) = "Key {word}";
        key_hint = "Two people with the same word look at the same key. Ask the signer for theirs";
        entry(name: &str) = "Seal of {name}";
        earlier(n: usize) = "{n} earlier {n?seal was:seals were} not looked into";
        fault_version(given: u64) = "it was made under version {given} of the format, which cannot be looked into here";
        fault_signature = "it was not made with this key, or what it says was changed";
        fault_missing(n: usize) = "{n} of the entries that it covered {n?is:are} not here";
        fault_more(n: usize) = "{n} {n?entry:entries} from before it {n?was:were} not there when it was made";
        fault_changed = "what it covered was changed";
        error_name(given: usize, most: usize) = "A name has 1 to {most} characters; this one has {given}";
        error_not_a_key = "This is not the file of a key";
        error_version(given: u64) = "The key’s file is of version {given}. A newer program reads it";
        error_unreadable = "Some entries of this card cannot be read here. A seal would not cover them";
    }
}

impl Words {
    /// Why a seal does not hold.
    pub fn seal_fault(&self, fault: SealFault) -> String {
        let words = &self.seals;
        let count = |entries: u64| usize::try_from(entries).unwrap_or(usize::MAX);
        match fault {
            SealFault::Version { given } => words.fault_version(given),
            SealFault::Signature => words.fault_signature.to_owned(),
            SealFault::Missing { entries } => words.fault_missing(count(entries)),
            SealFault::More { entries } => words.fault_more(count(entries)),
            SealFault::Changed => words.fault_changed.to_owned(),
        }
    }

    /// Whether a seal holds: a sentence.
    pub fn seal_state(&self, fault: Option<SealFault>) -> String {
        match fault {
            None => self.seals.holds.to_owned(),
            Some(fault) => self.seals.broken(&self.seal_fault(fault)),
        }
    }

    /// Why there is no key.
    pub fn seal_key_error(&self, error: &SealKeyError) -> String {
        let words = &self.seals;
        match error {
            SealKeyError::Name { given } => words.error_name(*given, LONGEST_RATER),
            SealKeyError::NotAKey => words.error_not_a_key.to_owned(),
            SealKeyError::Version { given } => words.error_version(*given),
        }
    }
}
