//! `cargo xtask test`: every test there is, in stages, and one closing line.
use std::process::Command;
use std::time::Instant;

use anyhow::{Context, Result, bail, ensure};

use crate::browsers::{Browser, firefox, webkit};
use crate::build::build;
use crate::check::check;
use crate::run::{cargo, lines, run, say};
use crate::toolchain::Wasm;
use crate::tools::{REFERENCE, axe, python};
use crate::workspace::Workspace;

/// How many tests went well and how many did not.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Tally {
    passed: usize,
    failed: usize,
}

impl Tally {
    const ONE: Self = Self {
        passed: 1,
        failed: 0,
    };

    fn add(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

/// A part of the tests that can be run by itself.
struct Stage {
    name: &'static str,
    about: &'static str,
    run: fn(&Workspace) -> Result<Tally>,
}

/// The quick ones first; the last needs what the one before it builds.
const STAGES: [Stage; 6] = [
    Stage {
        name: "check",
        about: "format, lints, licences, sources",
        run: |ws| check(ws).map(|()| Tally::ONE),
    },
    Stage {
        name: "native",
        about: "unit, property and outside-figure tests of the core, the command and the builder",
        run: native,
    },
    Stage {
        name: "reference",
        about: "the independent reference in Python",
        run: reference,
    },
    Stage {
        name: "browser",
        about: "storage, files and the painter in headless Chromium",
        run: browser,
    },
    Stage {
        name: "build",
        about: "both editions, within the limit of size",
        run: |ws| build(ws).map(|()| Tally::ONE),
    },
    Stage {
        name: "suite",
        about: "end to end in headless Chromium",
        run: suite,
    },
];

/// Runs all stages, or those named, and prints the closing line `N passed, N failed`.
/// Says whether all went well; a stage that fails does not keep the others from running.
///
/// # Errors
/// When a named stage does not exist.
pub fn test(ws: &Workspace, only: &[String]) -> Result<bool> {
    let names: Vec<&str> = STAGES.iter().map(|stage| stage.name).collect();
    for name in only {
        ensure!(
            names.contains(&name.as_str()),
            "no stage `{name}`; there are {}",
            names.join(", ")
        );
    }
    let mut total = Tally::default();
    let mut results = Vec::new();
    let chosen = |stage: &&Stage| only.is_empty() || only.iter().any(|name| name == stage.name);
    for stage in STAGES.iter().filter(chosen) {
        println!("\n== {}: {}", stage.name, stage.about);
        let begun = Instant::now();
        let tally = (stage.run)(ws).unwrap_or_else(|error| {
            println!("   {error:#}");
            Tally {
                passed: 0,
                failed: 1,
            }
        });
        total.add(tally);
        let result = format!(
            "{:<10} {:>6.1} s  {:>5} passed {:>4} failed",
            stage.name,
            begun.elapsed().as_secs_f64(),
            tally.passed,
            tally.failed
        );
        println!("== {result}");
        results.push(result);
    }
    println!("\n{}\n", results.join("\n"));
    println!("{} passed, {} failed", total.passed, total.failed);
    Ok(total.failed == 0)
}

/// Runs a command that tests, shows what it writes, and adds up what it says of its tests.
fn counted(command: &mut Command) -> Result<Tally> {
    let mut tally = Tally::default();
    let ended_well = lines(command, |line| {
        println!("   {line}");
        tally.add(tally_of(line));
    })?;
    if !ended_well && tally.failed == 0 {
        // It broke before or between its tests: still one thing that failed.
        println!("   failed. By hand: {}", crate::run::shown(command));
        tally.failed = 1;
    }
    Ok(tally)
}

/// What a line says of tests: `test result: ok. 5 passed; 0 failed; …` of Rust's tests in either
/// place, or `5 passed, 0 failed` of a script.
fn tally_of(line: &str) -> Tally {
    let result = line
        .split_once("test result: ")
        .and_then(|(_, said)| said.split_once(". "));
    let parts: Vec<&str> = match result {
        Some((_, counts)) => counts.split("; ").collect(),
        None => line.split(", ").collect(),
    };
    let count = |part: Option<&&str>, word: &str| -> Option<usize> {
        part?.strip_suffix(word)?.trim().parse().ok()
    };
    match (
        count(parts.first(), "passed"),
        count(parts.get(1), "failed"),
    ) {
        (Some(passed), Some(failed)) => Tally { passed, failed },
        _ => Tally::default(),
    }
}

fn native(ws: &Workspace) -> Result<Tally> {
    counted(
        cargo()
            .current_dir(ws.root())
            .args([
                "test",
                "--quiet",
                "--workspace",
                "--all-features",
                "--no-fail-fast",
            ])
            .args(["--exclude", "ringland-app", "--exclude", "suite"]),
    )
}

/// `tests/reference/check.py` finds the native command in the variable `RINGLAND_BIN`, the program that
/// answers single questions in `RINGLAND_FIGURES`, and ends with a line `N passed, N failed` and an exit code that fits it.
fn reference(ws: &Workspace) -> Result<Tally> {
    let script = ws.path("tests/reference/check.py");
    if !script.is_file() {
        say("there is no tests/reference/check.py yet");
        return Ok(Tally::default());
    }
    let python = python(ws, REFERENCE)?;
    run(
        "building the command",
        cargo()
            .current_dir(ws.root())
            .args(["build", "--quiet", "-p", "ringland", "-p", "suite"])
            .args(["--bin", "ringland", "--bin", "figures"]),
    )?;
    let program = |name| ws.target(&format!("debug/{name}{}", std::env::consts::EXE_SUFFIX));
    let tally = counted(
        Command::new(python)
            .current_dir(ws.root())
            .env("RINGLAND_BIN", program("ringland"))
            .env("RINGLAND_FIGURES", program("figures"))
            .arg(script),
    )?;
    if tally == Tally::default() {
        bail!("tests/reference/check.py did not say `N passed, N failed`");
    }
    Ok(tally)
}

fn browser(ws: &Workspace) -> Result<Tally> {
    let wasm = Wasm::ensure(ws)?;
    let browser = Browser::chromium()?;
    let capabilities = ws.target("webdriver.json");
    std::fs::write(&capabilities, browser.capabilities().to_string())
        .with_context(|| format!("writing {}", capabilities.display()))?;
    // This very program: the runner in `.cargo/config.toml` would be compiled once more where the
    // compiler for the browser is another one.
    let runner = format!(
        "{} wasm-bindgen-test-runner",
        std::env::current_exe()?.display()
    );
    counted(
        wasm.cargo(ws, "test")
            .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner)
            .env("CHROMEDRIVER", &browser.driver)
            .env("WASM_BINDGEN_TEST_ONLY_WEB", "1")
            .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", &capabilities)
            // Doc tests are left to the host: rustdoc refuses the compiler's path flags.
            .args(["-p", "ringland-app", "--tests", "--no-fail-fast"]),
    )
}

fn suite(ws: &Workspace) -> Result<Tally> {
    counted(&mut end_to_end(ws)?)
}

/// The command of the end-to-end tests. They find what they need in `RINGLAND_DIST`, `RINGLAND_AXE`, and
/// the names of each browser and its driver.
///
/// # Errors
/// When there is no site in `dist/`, or a browser, its driver or the checker cannot be had.
pub fn end_to_end(ws: &Workspace) -> Result<Command> {
    ensure!(
        ws.dist().join("index.html").is_file(),
        "there is no site in dist/. By hand: cargo xtask build"
    );
    let (chromium, firefox, webkit) = (Browser::chromium()?, firefox(ws)?, webkit()?);
    let axe = axe(ws)?;
    let mut command = cargo();
    command
        .current_dir(ws.root())
        .env("RINGLAND_DIST", ws.dist())
        .env("CHROMIUM", &chromium.browser)
        .env("CHROMEDRIVER", &chromium.driver)
        .env("FIREFOX", &firefox.browser)
        .env("GECKODRIVER", &firefox.driver)
        .env("MINIBROWSER", &webkit.browser)
        .env("WEBKITDRIVER", &webkit.driver)
        .env("RINGLAND_AXE", axe)
        .args(["test", "--quiet", "-p", "suite", "--no-fail-fast"]);
    Ok(command)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tests_are_counted_as_their_runners_say() {
        let tally = |passed, failed| Tally { passed, failed };
        let ok = "test result: ok. 5 passed; 0 failed; 1 ignored; 0 measured; finished in 0.1s";
        assert_eq!(tally_of(ok), tally(5, 0));
        assert_eq!(
            tally_of("test result: FAILED. 3 passed; 2 failed; 0 ignored"),
            tally(3, 2)
        );
        assert_eq!(tally_of("207 passed, 1 failed"), tally(207, 1));
        for other in [
            "test a ... ok",
            "",
            "5 passed",
            "5 passed and more, 0 failed",
        ] {
            assert_eq!(tally_of(other), Tally::default(), "{other}");
        }
    }
}
