//! Seals: what they cover, what breaks them, and what does not.

use std::fmt::Write;

use ed25519_compact::{KeyPair, PublicKey, Seed, Signature};
use proptest::prelude::*;
use ringland_card::{
    AppendError, Body, Card, Entry, Grade, Seal, Timestamp,
    card::LONGEST_RATER,
    file::{self, DigestingCard, read},
    seal::{
        LONGEST_SEALED, MOST_CHECKED, SealFault, SealKey, SealKeyError, check, cover, every_seal,
        seals,
    },
};

use crate::bench::{
    card, card_of, device, entry, entry_id, lobe, new_plan, other_plan, remark, time, void,
};

fn bytes<const N: usize>(hex: &str) -> [u8; N] {
    let pairs = hex.as_bytes().chunks(2);
    let bytes: Vec<u8> = pairs
        .map(|pair| u8::from_str_radix(std::str::from_utf8(pair).unwrap(), 16).unwrap())
        .collect();
    bytes.try_into().unwrap()
}

fn hex(bytes: &[u8]) -> String {
    let mut text = String::new();
    for byte in bytes {
        write!(text, "{byte:02x}").unwrap();
    }
    text
}

/// RFC 8032, 7.1: tests 1 to 3, each its secret key, public key, message and signature.
const RFC_8032: [[&str; 4]; 3] = [
    [
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ],
    [
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ],
    [
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ],
];

#[test]
fn signatures_are_those_of_rfc_8032() {
    for [secret, public, message, signature] in RFC_8032 {
        let pair = KeyPair::from_seed(Seed::new(bytes(secret)));
        assert_eq!(*pair.pk, bytes::<32>(public));
        let message: Vec<u8> = message
            .as_bytes()
            .chunks(2)
            .map(|pair| bytes::<1>(std::str::from_utf8(pair).unwrap())[0])
            .collect();
        assert_eq!(*pair.sk.sign(&message, None), bytes::<64>(signature));
        let key = PublicKey::new(bytes(public));
        assert!(
            key.verify(&message, &Signature::new(bytes(signature)))
                .is_ok()
        );
        // The key that seals are made with is the same.
        let ours = SealKey::from_seed("R. Hale", bytes(secret)).unwrap();
        assert_eq!(ours.public(), public);
    }
}

fn key() -> SealKey {
    SealKey::from_seed("R. Hale", bytes(RFC_8032[0][0])).unwrap()
}

fn sealed_by(key: &SealKey, card: &Card) -> Seal {
    let digest = DigestingCard::new(card).finish(card);
    key.seal(card, time(), cover(card), digest)
}

fn seal_entry(n: u64, seal: Seal) -> Entry {
    let seal = Box::new(seal);
    entry(n, Body::Seal { seal })
}

/// Three looks, sealed.
fn sealed() -> Card {
    let mut card = card_of([
        entry(1, lobe(Grade::Light)),
        entry(2, remark("Ñ <b>")),
        entry(3, new_plan(other_plan())),
    ]);
    let seal = sealed_by(&key(), &card);
    card.append(seal_entry(4, seal)).unwrap();
    card
}

fn faults(card: &Card) -> Vec<Option<SealFault>> {
    seals(card).into_iter().map(|read| read.fault).collect()
}

#[test]
fn a_seal_holds_and_comes_back_from_the_file() {
    let mut before = sealed();
    let found = seals(&before);
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].fault, found[0].after), (None, 0));
    assert_eq!(found[0].seal.entries, 3);
    // The digest is that of the file as it was before.
    let unsealed = card_of(before.entries().take(3).cloned());
    assert!(file::write(&unsealed).contains(&format!("\"digest\":\"{}\"", found[0].seal.digest)));
    let text = file::write(&before);
    let opened = read(text.as_bytes()).unwrap();
    assert!(opened.digest_matches);
    assert_eq!(opened.card.entry(entry_id(4)), before.entry(entry_id(4)));
    assert!(opened.card == before);
    // What comes later is told apart: a look, a correction of a sealed one, and one more seal over all of it.
    before.append(entry(5, lobe(Grade::Heavy))).unwrap();
    before.append(entry(6, void(entry_id(2)))).unwrap();
    let second = sealed_by(&key(), &before);
    before.append(seal_entry(7, second)).unwrap();
    let found = seals(&before);
    let said: Vec<_> = found.iter().map(|read| (read.fault, read.after)).collect();
    assert_eq!(said, [(None, 3), (None, 0)]);
    assert_eq!(found[1].seal.entries, 6);
}

#[test]
fn what_two_tablets_wrote_is_covered_as_far_as_it_was_there() {
    let on = |mut one: Entry, tablet: u8, lamport: u64| {
        one.device = device(tablet);
        one.lamport = lamport;
        one
    };
    let ours = card_of([
        on(entry(1, remark("a")), 1, 1),
        on(entry(2, remark("b")), 1, 5),
    ]);
    let theirs = card_of([
        on(entry(3, remark("c")), 2, 1),
        on(entry(4, remark("d")), 2, 2),
    ]);
    let half = card_of([on(entry(3, remark("c")), 2, 1)]);
    let mut here = ours.merge(&half).unwrap();
    let seal = sealed_by(&key(), &here);
    here.append(on(seal_entry(9, seal), 1, 6)).unwrap();
    // Their second entry stood before the seal by its counter, and was not here: it came after.
    let merged = here.merge(&theirs).unwrap();
    assert_eq!(merged, theirs.merge(&here).unwrap());
    let found = seals(&merged);
    assert_eq!((found[0].fault, found[0].after), (None, 1));
}

#[test]
fn whatever_was_changed_below_a_seal_breaks_it() {
    let whole = sealed();
    let entries: Vec<Entry> = whole.entries().cloned().collect();
    let change = |change: &dyn Fn(&mut Vec<Entry>)| {
        let mut entries = entries.clone();
        change(&mut entries);
        card_of(entries)
    };
    let other_look = change(&|entries| entries[0].body = lobe(Grade::None));
    let other_rater = change(&|entries| "N. Other".clone_into(&mut entries[1].rater));
    let other_time = change(&|entries| entries[1].time = Timestamp::from_millisecond(1).unwrap());
    for card in [other_look, other_rater, other_time] {
        assert_eq!(faults(&card), [Some(SealFault::Changed)]);
    }
    let without = change(&|entries| drop(entries.remove(1)));
    assert_eq!(faults(&without), [Some(SealFault::Missing { entries: 1 })]);
    let with = change(&|entries| {
        let mut more = entry(8, remark("put in"));
        more.lamport = 2;
        entries.push(more);
    });
    assert_eq!(faults(&with), [Some(SealFault::More { entries: 1 })]);
}

#[test]
fn a_seal_that_says_something_else_is_not_signed() {
    let whole = sealed();
    let Body::Seal { seal } = whole.entry(entry_id(4)).unwrap().body.clone() else {
        panic!("a seal");
    };
    let change = |change: &dyn Fn(&mut Seal)| {
        let mut seal = (*seal).clone();
        change(&mut seal);
        check(&whole, &seal)
    };
    assert_eq!(change(&|_| {}), Ok(()));
    let other = SealKey::from_seed("R. Hale", bytes(RFC_8032[1][0])).unwrap();
    let changes: [&dyn Fn(&mut Seal); 9] = [
        &|seal| "Another".clone_into(&mut seal.name),
        &|seal| seal.at = Timestamp::from_millisecond(0).unwrap(),
        &|seal| seal.entries += 1,
        &|seal| seal.covers.extend([(device(9), 1)]),
        &|seal| seal.digest.push('0'),
        &|seal| seal.key = other.public(),
        &|seal| seal.key = "x".to_owned(),
        &|seal| seal.signature.truncate(126),
        &|seal| seal.signature = seal.signature.to_uppercase(),
    ];
    for one in changes {
        assert_eq!(change(one), Err(SealFault::Signature));
    }
    let newer = change(&|seal| seal.version = 9);
    assert_eq!(newer, Err(SealFault::Version { given: 9 }));
    // On another card of the same entries it is no seal.
    let mut elsewhere = Card::new(crate::bench::card_id(7), crate::bench::plan()).unwrap();
    for one in whole.entries() {
        elsewhere.append(one.clone()).unwrap();
    }
    assert_eq!(faults(&elsewhere), [Some(SealFault::Signature)]);
}

/// The neutral point of the curve, and its base point (RFC 8032, 5.1), as they are written.
const NEUTRAL: &str = "0100000000000000000000000000000000000000000000000000000000000000";
const BASE: &str = "5866666666666666666666666666666666666666666666666666666666666666";

/// With the neutral point for a key, s·B = R + k·A is R = s·B whatever was signed: anybody can sign for it. RFC 8032 leaves
/// it open whether such keys are refused.
#[test]
fn a_key_that_fits_everything_signs_nothing() {
    let whole = sealed();
    let Body::Seal { mut seal } = whole.entry(entry_id(4)).unwrap().body.clone() else {
        panic!("a seal");
    };
    NEUTRAL.clone_into(&mut seal.key);
    let scalar = |s: u8| format!("{s:02x}{}", "0".repeat(62));
    for (r, s) in [(NEUTRAL, 0), (BASE, 1)] {
        seal.signature = [r, &scalar(s)].concat();
        assert_eq!(check(&whole, &seal), Err(SealFault::Signature), "s = {s}");
    }
}

/// A screen looks into the last ones; whoever says that all hold has looked into all.
#[test]
fn later_seals_do_not_hide_a_broken_one() {
    let mut card = sealed();
    let Body::Seal { mut seal } = card.entry(entry_id(4)).unwrap().body.clone() else {
        panic!("a seal");
    };
    "Another".clone_into(&mut seal.name);
    card.append(entry(5, Body::Seal { seal })).unwrap();
    for n in (6..).take(MOST_CHECKED) {
        let later = sealed_by(&key(), &card);
        card.append(seal_entry(n, later)).unwrap();
    }
    assert!(faults(&card).iter().all(Option::is_none));
    let every = every_seal(&card);
    assert_eq!(every.len(), MOST_CHECKED + 2);
    let broken: Vec<_> = every.iter().filter_map(|read| read.fault).collect();
    assert_eq!(broken, [SealFault::Signature]);
}

/// A tablet that opens an older file of the card uses its counters again; what it then wrote is not hidden under the seal.
#[test]
fn a_tablet_that_went_back_is_told_from_one_that_did_not() {
    let older = card_of([entry(1, lobe(Grade::Light))]);
    let mut back = older.clone();
    let mut again = entry(9, remark("again"));
    again.lamport = back.next_lamport();
    back.append(again).unwrap();
    let merged = sealed().merge(&back).unwrap();
    assert_eq!(faults(&merged), [Some(SealFault::More { entries: 1 })]);
}

/// The order L of the group, its lowest byte first (RFC 8032, 5.1).
const ORDER: &str = "edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010";

/// s and s + L sign alike unless it is looked at (RFC 8032, 5.1.7).
#[test]
fn a_signature_has_one_form() {
    let whole = sealed();
    let Body::Seal { mut seal } = whole.entry(entry_id(4)).unwrap().body.clone() else {
        panic!("a seal");
    };
    let mut signature: [u8; 64] = bytes(&seal.signature);
    let mut carry = 0;
    for (byte, order) in signature[32..].iter_mut().zip(bytes::<32>(ORDER)) {
        let sum = u16::from(*byte) + u16::from(order) + carry;
        *byte = (sum & 0xff) as u8;
        carry = sum >> 8;
    }
    assert_eq!(carry, 0);
    seal.signature = hex(&signature);
    assert_eq!(check(&whole, &seal), Err(SealFault::Signature));
}

#[test]
fn a_seal_that_nobody_could_show_is_refused() {
    let Body::Seal { seal } = sealed().entry(entry_id(4)).unwrap().body.clone() else {
        panic!("a seal");
    };
    let mut empty = card();
    let refused = |change: &dyn Fn(&mut Seal)| {
        let mut seal = seal.clone();
        change(&mut seal);
        empty
            .clone()
            .append(entry(1, Body::Seal { seal }))
            .unwrap_err()
    };
    let long = "x".repeat(LONGEST_RATER + 1);
    assert_eq!(
        refused(&|seal| seal.name.clear()),
        AppendError::Rater { given: 0 }
    );
    assert_eq!(
        refused(&|seal| seal.name.clone_from(&long)),
        AppendError::Rater { given: 201 }
    );
    let longer = "x".repeat(LONGEST_SEALED + 1);
    assert_eq!(
        refused(&|seal| seal.key.clone_from(&longer)),
        AppendError::LongText { given: 201 }
    );
    // A broken one is kept, and said to be broken.
    empty.append(entry(9, Body::Seal { seal })).unwrap();
    assert_eq!(faults(&empty), [Some(SealFault::Missing { entries: 3 })]);
}

#[test]
fn a_key_comes_back_from_its_file_and_from_no_other() {
    let key = key();
    let file = key.write();
    assert_eq!(SealKey::read(file.as_bytes()), Ok(key.clone()));
    assert!(!format!("{key:?}").contains(RFC_8032[0][0]));
    for other in [
        "",
        "{}",
        "[1]",
        &file.replace("ringland-seal-key", "ringland-card"),
        &file.replace(RFC_8032[0][0], &RFC_8032[0][0][2..]),
        &file.replace("\"version\":1", "\"version\":\"1\""),
        &file.replace("\"name\":\"R. Hale\"", "\"name\":7"),
        &[file.as_str(), &" ".repeat(10_000)].concat(),
    ] {
        assert_eq!(
            SealKey::read(other.as_bytes()),
            Err(SealKeyError::NotAKey),
            "{other}"
        );
    }
    let newer = file.replace("\"version\":1", "\"version\":2");
    assert_eq!(
        SealKey::read(newer.as_bytes()),
        Err(SealKeyError::Version { given: 2 })
    );
    assert_eq!(
        SealKey::from_seed("", [1; 32]),
        Err(SealKeyError::Name { given: 0 })
    );
    assert_eq!(SealKey::from_seed("A", [0; 32]), Err(SealKeyError::NotAKey));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever three tablets write and in whatever order their files are merged, a seal that one of them set holds.
    #[test]
    fn an_honest_seal_outlives_every_exchange(
        writes in prop::collection::vec((0_usize..3, 0_usize..3, any::<bool>()), 4..24),
    ) {
        let mut tablets = vec![card(); 3];
        for (n, (tablet, from, seals)) in (1..).zip(writes) {
            let other = tablets[from].clone();
            tablets[tablet] = tablets[tablet].merge(&other).unwrap();
            let card = &mut tablets[tablet];
            let body = if seals {
                Body::Seal { seal: Box::new(sealed_by(&key(), card)) }
            } else {
                remark("x")
            };
            let mut one = entry(n, body);
            one.device = device(u8::try_from(tablet).unwrap());
            one.lamport = card.next_lamport();
            card.append(one).unwrap();
        }
        let all = tablets.iter().fold(card(), |all, tablet| tablet.merge(&all).unwrap());
        prop_assert!(faults(&all).iter().all(Option::is_none));
        for tablet in &tablets {
            prop_assert!(faults(tablet).iter().all(Option::is_none));
        }
    }
}
