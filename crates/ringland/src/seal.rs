//! Seals from the command line: a key, a seal with it, and what the seals of a card come to.

use std::{
    fs::{File, OpenOptions},
    io::Write,
    path::{Path, PathBuf},
    process::ExitCode,
    time::{SystemTime, UNIX_EPOCH},
};

use clap::Args;
use ringland_card::{
    Body, Card, DeviceId, Entry, EntryId, Timestamp,
    file::{self, DigestingCard},
    seal::{SealFault, SealKey, SealRead, cover, every_seal},
};
use ringland_report::format::check_word;

use crate::{
    at,
    given::{self, Given},
    print,
};

/// What is asked of `ringland seal`.
#[derive(Debug, Args)]
pub(crate) struct Asked {
    /// The card's file.
    file: PathBuf,
    /// The file of the key that it is sealed with.
    #[arg(long)]
    key: PathBuf,
    /// Where to write the sealed card; with photos if it ends with `.card.zip`.
    #[arg(short, long)]
    output: PathBuf,
}

/// What is asked of `ringland seal-key`.
#[derive(Debug, Args)]
pub(crate) struct NewKey {
    /// Who seals with it.
    name: String,
    /// Where to write it; an existing file is left as it is.
    #[arg(short, long)]
    output: PathBuf,
}

/// Makes a key and writes its file, which only its owner may read.
pub(crate) fn new_key(asked: &NewKey) -> Result<ExitCode, String> {
    let output = &asked.output;
    let key = SealKey::from_seed(&asked.name, random()?).map_err(|why| why.to_string())?;
    let written = owners_file(output).and_then(|mut file| file.write_all(key.write().as_bytes()));
    written.map_err(|why| at(output)(&why))?;
    print(&format!(
        "{}: key of {}, {}. Keep it where nobody else reads it",
        output.display(),
        key.name(),
        check_word(&key.public())
    ))
}

/// A new file that nobody but its owner may read, where the system knows owners.
fn owners_file(path: &Path) -> std::io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}

/// Seals a card and writes it.
pub(crate) fn seal(asked: &Asked) -> Result<ExitCode, String> {
    let (input, output) = (&asked.file, &asked.output);
    let key = std::fs::read(&asked.key).map_err(|why| at(&asked.key)(&why))?;
    let key = SealKey::read(&key).map_err(|why| at(&asked.key)(&why))?;
    let given = Given::read(input)?;
    if !given.opened.digest_matches {
        return Err(at(input)(
            &"the digest does not match: an altered file is not sealed",
        ));
    }
    let mut card = given.opened.card;
    let entry = entry(&card, &key)?;
    card.append(entry).map_err(|why| at(input)(&why))?;
    let bytes = if output.extension().is_some_and(|end| end == "zip") {
        given::bundle(output, &card, &given.photos).map_err(|why| at(output)(&why))?
    } else {
        file::write(&card).into_bytes()
    };
    std::fs::write(output, bytes).map_err(|why| at(output)(&why))?;
    print(&format!(
        "{}: sealed by {}, key {}",
        output.display(),
        key.name(),
        check_word(&key.public())
    ))
}

fn entry(card: &Card, key: &SealKey) -> Result<Entry, String> {
    let ms = now_ms();
    let time = i64::try_from(ms).ok().and_then(Timestamp::from_millisecond);
    let time = time.ok_or("the clock of this machine is far off")?;
    let digest = DigestingCard::new(card).finish(card);
    let seal = Box::new(key.seal(card, time, cover(card), digest));
    Ok(Entry::new(
        EntryId::v7(ms, random()?),
        DeviceId::v7(ms, random()?),
        card.next_lamport(),
        time,
        key.name(),
        Body::Seal { seal },
    ))
}

#[expect(
    clippy::disallowed_methods,
    reason = "the command has a clock; the core is told the time"
)]
fn now_ms() -> u64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    since.map_or(0, |since| {
        u64::try_from(since.as_millis()).unwrap_or(u64::MAX)
    })
}

fn random<const BYTES: usize>() -> Result<[u8; BYTES], String> {
    let mut bytes = [0; BYTES];
    getrandom::fill(&mut bytes).map_err(|why| format!("no random bytes: {why}"))?;
    Ok(bytes)
}

/// Every seal of a card, a line each.
///
/// # Errors
///
/// The lines, where one does not hold.
pub(crate) fn said(card: &Card) -> Result<String, String> {
    let read = every_seal(card);
    let lines: String = read.iter().map(line).collect();
    if read.iter().any(|read| read.fault.is_some()) {
        Err(lines)
    } else {
        Ok(lines)
    }
}

fn line(read: &SealRead) -> String {
    let SealRead { seal, fault, after } = read;
    let state = fault.map_or_else(
        || "holds".to_owned(),
        |fault: SealFault| format!("BROKEN: {fault}"),
    );
    format!(
        "\nseal of {}, {}, key {}: {} entries covered, {after} after it; {state}",
        seal.name,
        seal.at,
        check_word(&seal.key),
        seal.entries,
    )
}
