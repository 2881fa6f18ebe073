//! `ringland`: what a card says, and what readings foretell, without a browser.
//!
//! Exit code 0: fine. 1: a file is wrong, and where. 2: wrong usage.

mod forecast;
mod given;
mod json;
mod measurements;
mod report;
mod seal;
mod text;

use std::{
    borrow::Cow,
    fmt::Display,
    fs,
    io::{self, Write},
    path::{Path, PathBuf},
    process::ExitCode,
};

use clap::{Parser, Subcommand};
use ringland_card::{
    Card, Coming, Depth, Layout, Plan, PlanIndex, Standing,
    file::{self, Opened, OpenedPlan},
    plan::builtin,
};
use ringland_report::{format::UnitPrefs, words::Words};

use self::given::Given;

/// Score, check, merge and report teardown cards; forecast wear.
#[derive(Debug, Parser)]
#[command(version, about)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// The roll-up, trade figures and flags of a card.
    Score {
        /// The card's file.
        file: PathBuf,
        /// Print everything as JSON, every node with its path.
        #[arg(long)]
        json: bool,
        /// Score under the plan of this file instead of the card's own. The card stays as it is.
        #[arg(long, value_name = "FILE")]
        plan: Option<PathBuf>,
    },
    /// Say whether a file is a whole, unaltered card, and whether its seals hold.
    Check {
        /// The card's file.
        file: PathBuf,
    },
    /// Put two files of one card together.
    Merge {
        /// One file.
        a: PathBuf,
        /// The other.
        b: PathBuf,
        /// Where to write the merged card.
        #[arg(short, long, required_unless_present = "show")]
        output: Option<PathBuf>,
        /// Say what the other file would bring to the one, and write nothing.
        #[arg(long, conflicts_with = "output")]
        show: bool,
    },
    /// Write the page that is handed over: one file that any browser shows and that carries the card.
    Report(report::Asked),
    /// Seal a card: say with a signature that what stands on it is what is handed over.
    Seal(seal::Asked),
    /// Make the key that cards are sealed with.
    SealKey(seal::NewKey),
    /// Print the built-in plan for a layout.
    Plan {
        /// `inline-six`, `vee-eight`, or a file with a layout as JSON.
        layout: String,
        /// The short plan rather than the full one.
        #[arg(long)]
        short: bool,
    },
    /// Wear over distance: the curve through each unit's readings, why it was taken, and what was left.
    Forecast(forecast::Asked),
    /// Print the JSON Schema of the card's file.
    Schema {
        /// That of a plan's file instead.
        #[arg(long)]
        plan: bool,
    },
}

fn main() -> ExitCode {
    match run(Arguments::parse().command) {
        Ok(code) => code,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(1)
        }
    }
}

fn run(command: Command) -> Result<ExitCode, String> {
    match command {
        Command::Score { file, json, plan } => {
            let opened = open(&file)?;
            let other = plan.as_deref().map(open_plan).transpose()?;
            let scored = Scored::of(&opened, other.as_ref());
            print(&if json {
                json::score(&scored)
            } else {
                text::score(&scored)
            })
        }
        Command::Check { file } => check(&file),
        Command::Merge { a, b, output, .. } => merge(&a, &b, output.as_deref()),
        Command::Report(asked) => print(&report::write(&asked)?),
        Command::Seal(asked) => seal::seal(&asked),
        Command::SealKey(asked) => seal::new_key(&asked),
        Command::Plan { layout, short } => {
            let layout = self::layout(&layout)?;
            let depth = if short { Depth::Short } else { Depth::Full };
            let plan = builtin(&layout, depth).map_err(|why| format!("layout: {why}"))?;
            print(&pretty(&plan))
        }
        Command::Forecast(asked) => print(&forecast::run(&asked)?),
        Command::Schema { plan: false } => print(&pretty(&file::schema::schema())),
        Command::Schema { plan: true } => print(&pretty(&file::schema::plan_schema())),
    }
}

/// A card that was opened, scored under its own plan or another.
struct Scored<'c> {
    card: &'c Card,
    digest_matches: bool,
    plan: &'c Plan,
    index: Cow<'c, PlanIndex>,
    /// The plan's file where it is not the card's own plan, and whether that is unaltered.
    other: Option<&'c OpenedPlan>,
}

impl<'c> Scored<'c> {
    fn of(opened: &'c Opened, other: Option<&'c OpenedPlan>) -> Self {
        let card = &opened.card;
        let (plan, index) = match other {
            Some(other) => {
                let plan = &other.file.plan;
                (plan, Cow::Owned(PlanIndex::of(plan)))
            }
            None => (card.plan(), Cow::Borrowed(card.index())),
        };
        Self {
            card,
            digest_matches: opened.digest_matches,
            plan,
            index,
            other,
        }
    }

    fn standing(&self) -> Standing<'_> {
        Standing::under(self.card, self.plan, &self.index)
    }
}

fn open_plan(path: &Path) -> Result<OpenedPlan, String> {
    let bytes = fs::read(path).map_err(|why| at(path)(&why))?;
    file::read_plan(&bytes).map_err(|why| at(path)(&why))
}

fn pretty(value: &impl serde::Serialize) -> String {
    serde_json::to_string_pretty(value).unwrap_or_default()
}

fn print(text: &str) -> Result<ExitCode, String> {
    match writeln!(io::stdout().lock(), "{text}") {
        // A reader that has seen enough, such as `head`, is no fault of the card's.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(ExitCode::SUCCESS),
        Err(error) => Err(format!("cannot write: {error}")),
        Ok(()) => Ok(ExitCode::SUCCESS),
    }
}

fn at(path: &Path) -> impl Fn(&dyn Display) -> String + '_ {
    move |why| format!("{}: {why}", path.display())
}

fn open(path: &Path) -> Result<Opened, String> {
    Ok(Given::read(path)?.opened)
}

fn check(path: &Path) -> Result<ExitCode, String> {
    let bytes = fs::read(path).map_err(|why| at(path)(&why))?;
    let given = Given::read(path)?;
    let opened = &given.opened;
    if !opened.digest_matches {
        return Err(at(path)(
            &"the digest does not match: the file was altered or damaged after it was written",
        ));
    }
    let (entries, leaves) = (opened.card.len(), opened.card.plan().rating_count());
    if file::is_page(&bytes) && !report::is_as_written(&bytes, &given) {
        return Err(at(path)(
            &"the card in this page is whole, but the page is not the one that this version writes of it: \
              it was edited, or another version wrote it",
        ));
    }
    if let Some((photo, why)) = given.refused.first() {
        return Err(at(path)(&format!("photo {photo}: {why}")));
    }
    let photos = match opened.card.photos_named().len() {
        0 => String::new(),
        all => format!(", {} of {all} photos with it", given.photos.len()),
    };
    let others = match given.left_out {
        0 => String::new(),
        others => format!(", {others} files that are neither the card nor a photo"),
    };
    let seals = seal::said(&opened.card).map_err(|lines| {
        at(path)(&format!(
            "a whole card, but not all of its seals hold{lines}"
        ))
    })?;
    print(&format!(
        "{}: a whole card, {entries} entries, plan of {leaves} ratings{photos}{others}{seals}",
        path.display()
    ))
}

/// Files that were altered are not merged: what was altered would be taken for what was seen.
fn merge(a: &Path, b: &Path, output: Option<&Path>) -> Result<ExitCode, String> {
    let whole = |path: &Path| -> Result<Given, String> {
        let given = Given::read(path)?;
        if given.opened.digest_matches {
            Ok(given)
        } else {
            Err(at(path)(
                &"the digest does not match: an altered file is not merged",
            ))
        }
    };
    let (one, other) = (whole(a)?, whole(b)?);
    let (ours, theirs) = (&one.opened.card, &other.opened.card);
    let Some(output) = output else {
        let coming = Coming::of(ours, theirs).map_err(|why| at(b)(&why))?;
        if coming.is_empty() {
            return print("nothing new: all of it is there already");
        }
        let said = Words::ENGLISH.coming(ours, &coming, UnitPrefs::default());
        return print(&said.join("\n"));
    };
    let merged = ours.merge(theirs).map_err(|why| at(b)(&why))?;
    let mut photos = one.photos;
    photos.extend(other.photos);
    let bundled = output.extension().is_some_and(|end| end == "zip");
    let bytes = if bundled {
        given::bundle(output, &merged, &photos).map_err(|why| at(output)(&why))?
    } else {
        file::write(&merged).into_bytes()
    };
    fs::write(output, bytes).map_err(|why| at(output)(&why))?;
    let photos = match (bundled, photos.len()) {
        (_, 0) => String::new(),
        (true, photos) => format!(", {photos} photos"),
        (false, photos) => format!(
            "; {photos} photos are not in it: an output that ends with `.card.zip` takes them along"
        ),
    };
    let (output, entries) = (output.display(), merged.len());
    print(&format!("{output}: {entries} entries{photos}"))
}

fn layout(name: &str) -> Result<Layout, String> {
    match name {
        "inline-six" => Ok(Layout::inline_six()),
        "vee-eight" => Ok(Layout::vee_eight()),
        path => {
            let path = Path::new(path);
            let text = fs::read_to_string(path).map_err(|why| {
                format!(
                    "{why}: a layout is `inline-six`, `vee-eight` or a file, not `{}`",
                    path.display()
                )
            })?;
            serde_json::from_str(&text).map_err(|why| at(path)(&why))
        }
    }
}
