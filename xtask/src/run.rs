//! Running other programs: say what is done, and on failure say what a person would run.
use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

/// Tells the person what happens next.
pub fn say(what: &str) {
    println!("· {what}");
}

/// The command as it would be typed in a shell, with the variables it needs.
pub fn shown(command: &Command) -> String {
    let mut words = Vec::new();
    if let Some(dir) = command.get_current_dir() {
        words.push(format!("cd {} &&", quoted(dir.as_os_str())));
    }
    for (name, value) in command.get_envs() {
        if let Some(value) = value {
            words.push(format!("{}={}", name.display(), quoted(value)));
        }
    }
    words.push(quoted(command.get_program()));
    words.extend(command.get_args().map(quoted));
    words.join(" ")
}

fn quoted(word: &OsStr) -> String {
    let word = word.to_string_lossy();
    let plain = |c: char| c.is_ascii_alphanumeric() || "-_./:=,+@%".contains(c);
    if !word.is_empty() && word.chars().all(plain) {
        word.into_owned()
    } else {
        // Flags that cargo separates by U+001F stay readable and typeable as $'…\x1f…'.
        let escaped = word.replace('\\', "\\\\").replace('\'', "\\'");
        if escaped.contains('\u{1f}') {
            format!("$'{}'", escaped.replace('\u{1f}', "\\x1f"))
        } else {
            format!("'{}'", word.replace('\'', r"'\''"))
        }
    }
}

/// Runs a command to its end, its output going to the terminal.
///
/// # Errors
/// When it cannot be started or says that it failed; the message holds the command to run by hand.
pub fn run(what: &str, command: &mut Command) -> Result<()> {
    say(what);
    let status = command
        .status()
        .with_context(|| format!("{what}: cannot start `{}`", shown(command)))?;
    if !status.success() {
        bail!("{what}: failed ({status}). By hand: {}", shown(command));
    }
    Ok(())
}

/// Runs a command and gives back what it wrote.
///
/// # Errors
/// As [`run`]; what the command wrote to its error output is in the message.
pub fn output(command: &mut Command) -> Result<String> {
    let out = command
        .stdin(Stdio::null())
        .output()
        .with_context(|| format!("cannot start `{}`", shown(command)))?;
    if !out.status.success() {
        bail!(
            "failed ({}): {}\n{}",
            out.status,
            shown(command),
            String::from_utf8_lossy(&out.stderr).trim()
        );
    }
    Ok(String::from_utf8_lossy(&out.stdout).into_owned())
}

/// Runs a command, gives each line of its output to `line`, and says whether it ended well.
///
/// # Errors
/// When it cannot be started or its output not be read.
pub fn lines(command: &mut Command, mut line: impl FnMut(&str)) -> Result<bool> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .with_context(|| format!("cannot start `{}`", shown(command)))?;
    if let Some(out) = child.stdout.take() {
        for read in BufReader::new(out).split(b'\n') {
            line(String::from_utf8_lossy(&read?).trim_end());
        }
    }
    Ok(child.wait()?.success())
}

/// Runs a command quietly for at most `limit`; a command that is not done by then is ended.
///
/// # Errors
/// When it cannot be started.
pub fn within(limit: Duration, command: &mut Command) -> Result<bool> {
    let mut child = command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .with_context(|| format!("cannot start `{}`", shown(command)))?;
    let end = Instant::now() + limit;
    while Instant::now() < end {
        if let Some(status) = child.try_wait()? {
            return Ok(status.success());
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    child.kill()?;
    child.wait()?;
    Ok(false)
}

/// The first of these programs that is on the search path.
pub fn program(names: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    names.iter().find_map(|name| {
        std::env::split_paths(&path)
            .map(|dir| dir.join(name))
            .find(|file| file.is_file())
    })
}

/// The cargo that runs this xtask, for work on this machine itself.
pub fn cargo() -> Command {
    Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_command_is_shown_as_it_would_be_typed() {
        let mut command = Command::new("cargo");
        command.env("A", "x y").args(["build", "--flag=it's"]);
        assert_eq!(shown(&command), r"A='x y' cargo build '--flag=it'\''s'");
    }

    #[test]
    fn a_command_over_its_limit_is_ended() {
        let begun = Instant::now();
        let done = within(Duration::from_millis(200), Command::new("sleep").arg("30")).unwrap();
        assert!(!done && begun.elapsed() < Duration::from_secs(10));
    }
}
