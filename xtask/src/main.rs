//! The command line of `cargo xtask`.
use std::process::ExitCode;

use anyhow::Result;
use clap::{Parser, Subcommand};
use xtask::{bench, build, check, serve, test, workspace::Workspace};

#[derive(Parser)]
#[command(
    name = "cargo xtask",
    about = "Builds, serves, checks and tests Ringland."
)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Build both editions into dist/.
    Build,
    /// Build, then serve the site on 127.0.0.1 until stopped.
    Serve {
        /// The port to try first; the next free one is taken where it is in use.
        #[arg(long, default_value_t = 8017)]
        port: u16,
    },
    /// Format, lints, licences, sources, and who may know the browser.
    Check,
    /// Measure how fast it is, beside something known.
    Bench,
    /// Run every test, or only the stages named.
    Test {
        /// Names of stages; all of them when none is given.
        stages: Vec<String>,
    },
}

fn main() -> ExitCode {
    // cargo calls the runner with a path first, which is no subcommand of ours to parse.
    let mut args = std::env::args_os().skip(1);
    let outcome = if args
        .next()
        .is_some_and(|first| first == "wasm-bindgen-test-runner")
    {
        let name = std::ffi::OsString::from("wasm-bindgen-test-runner");
        wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(
            std::iter::once(name).chain(args),
        )
        .map(|()| true)
    } else {
        answer(Cli::parse().command)
    };
    match outcome {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("\nerror: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Whether all went well; an error is for what could not be done at all.
fn answer(command: Command) -> Result<bool> {
    let ws = Workspace::find()?;
    match command {
        Command::Build => build::build(&ws).map(|()| true),
        Command::Serve { port } => serve::serve(&ws, port).map(|()| true),
        Command::Bench => bench::bench(&ws).map(|()| true),
        Command::Check => check::check(&ws).map(|()| true),
        Command::Test { stages } => test::test(&ws, &stages),
    }
}
