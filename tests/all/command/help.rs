//! What help says of each command, and that its examples do what they say.
//!
//! A line of an example is run as it stands, by a shell.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::common::grower::Grower;
use trug::command::examples::EXAMPLES;
use trug::command::help::parser;
use trug::command::notes::NOTES;

/// The words after `trug` of every command, and its parser.
fn commands(below: &clap::Command, words: &str) -> Vec<(String, clap::Command)> {
    let mut found = vec![(words.to_string(), below.clone())];
    for one in below.get_subcommands() {
        let words = format!("{words} {}", one.get_name());
        found.extend(commands(one, words.trim_start()));
    }
    found
}

#[test]
fn every_command_ends_its_help_with_two_or_three_examples_of_itself() {
    let all = commands(&parser(), "");
    let known: Vec<&str> = all.iter().map(|(words, _)| words.as_str()).collect();
    for (words, examples) in EXAMPLES {
        assert!(known.contains(&words), "no command {words:?}");
        assert!((2..=3).contains(&examples.len()), "{words}");
        for example in examples {
            let begins = format!("trug {words}");
            assert!(
                example.line.starts_with(begins.trim_end()),
                "{}",
                example.line
            );
        }
    }
    for (words, mut command) in all {
        let help = command.render_long_help().to_string();
        let examples = EXAMPLES.iter().find(|(of, _)| *of == words);
        let (_, examples) = examples.unwrap_or_else(|| panic!("no examples of {words:?}"));
        let (_, ending) = help.split_once("\nExamples:\n").expect("examples");
        assert_eq!(ending.lines().count(), 2 * examples.len(), "{ending}");
        for example in *examples {
            assert!(
                help.contains(example.line) && help.contains(example.does),
                "{help}"
            );
        }
    }
}

/// In the order of the table, since a sheet or a list is written before it is imported.
#[test]
fn examples_run_as_they_stand() {
    let grower = Grower::new();
    let blooms = "centre,rows,diameter\nopen,1,3in\nopen,6,4in\n";
    fs::write(grower.here().join("blooms.csv"), blooms).expect("a table of blooms");
    for (words, examples) in EXAMPLES {
        for example in examples {
            // Not every machine has a reader for the manual.
            let line = example.line.split(" | ").next().unwrap_or_default();
            let printed = grower.does(line);
            let written = line.split_whitespace().filter(|word| word.contains('.'));
            let files: Vec<&str> = written
                .filter(|word| Path::new(word).extension().is_some_and(is_a_file))
                .collect();
            assert!(!printed.trim().is_empty() || line.contains(" > "), "{line}");
            for file in files {
                let length = fs::metadata(grower.here().join(file)).map(|of| of.len());
                assert!(
                    length.is_ok_and(|length| length > 0),
                    "{words}: {line}: {file}"
                );
            }
        }
    }
}

fn is_a_file(ending: &std::ffi::OsStr) -> bool {
    let known = ["bash", "csv", "fish", "ics", "pdf", "smt2", "1"];
    known.iter().any(|one| ending == *one)
}

#[test]
fn options_of_every_command_stand_apart_and_last() {
    let grower = Grower::new();
    for (words, command) in commands(&parser(), "") {
        let help = grower.does(&format!("trug {words} --help"));
        let (own, common) = help
            .split_once("\nOptions of every command:\n")
            .unwrap_or_else(|| panic!("{words}: {help}"));
        for option in [
            "--at",
            "--rules",
            "--units",
            "--json",
            "--plain",
            "--replace",
        ] {
            let line = format!("\n      {option} ");
            assert!(format!("\n{common}").contains(&line), "{words}: {option}");
            assert!(!own.contains(&line), "{words}: {option}");
        }
        for argument in command.get_arguments() {
            assert!(
                argument.get_help().is_some(),
                "{words}: {:?}",
                argument.get_id()
            );
        }
    }
}

/// In help as a grower reads it, line ends and all, and on the manual page.
#[test]
fn what_is_good_to_know_of_a_command_stands_in_its_help() {
    let grower = Grower::new();
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let known: Vec<String> = { commands(&parser(), "").into_iter() }
        .map(|(words, _)| words)
        .collect();
    for (command, notes) in NOTES {
        assert!(
            known.iter().any(|one| one == command),
            "no command {command:?}"
        );
        let help = grower.does(&format!("trug {command} --help"));
        assert!(help.contains("\nGood to know:\n"), "{help}");
        for note in notes {
            assert!(
                words(&help).contains(&words(note)),
                "{command}: {note}\n{help}"
            );
        }
    }
    let order = words(&grower.does("trug order --help"));
    assert!(order.contains("Proved means that no order at all that meets your needs costs less."));
    let page = grower.does("trug man").replace("\\-", "-");
    let page = words(&page.replace("\\*(Aq", "'"));
    for note in NOTES.iter().flat_map(|(_, notes)| *notes) {
        assert!(page.contains(note), "{note}");
    }
}

#[test]
fn what_an_entry_may_say_is_listed_by_help() {
    let help = Grower::new().does("trug row note --help");
    for word in trug::trial::read::WORDS {
        assert!(help.contains(&format!("  {} ", word.id)), "{help}");
    }
    let help = Grower::new().does("trug stock note --help");
    for word in trug::stock::read::WORDS {
        assert!(help.contains(&format!("  {} ", word.id)), "{help}");
    }
}

#[test]
fn completions_name_every_command_and_are_scripts_of_the_shell() {
    let grower = Grower::new();
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let script = grower.does(&format!("trug completions {shell}"));
        for (words, _) in commands(&parser(), "") {
            let name = words.split(' ').next_back().unwrap_or_default();
            assert!(script.contains(name), "{shell}: {words}");
        }
    }
    let bash = grower.types("command -v bash");
    if bash.status.success() {
        grower.does("trug completions bash > trug.bash && bash -n trug.bash");
        let offered = grower.does(
            "bash -c 'source trug.bash; COMP_WORDS=(trug ord); COMP_CWORD=1; _trug trug ord trug; echo ${COMPREPLY[@]}'",
        );
        assert_eq!(offered.trim(), "order");
    }
    let refused = grower.types("trug completions cmd");
    assert_eq!(refused.status.code(), Some(2));
}

#[test]
fn a_broken_folder_does_not_keep_the_shell_from_its_completions() {
    let grower = Grower::new();
    fs::write(grower.folder().join("settings.ron"), "(").expect("a broken file");
    assert!(!grower.types("trug key rows=5").status.success());
    assert!(
        grower
            .does("trug completions zsh")
            .contains("#compdef trug")
    );
    assert!(grower.does("trug man").contains(".TH"));
}

#[test]
fn the_manual_page_has_every_command_and_its_examples() {
    let grower = Grower::new();
    let page = grower.does("trug man");
    for (words, _) in commands(&parser(), "").iter().skip(1) {
        let heading = format!("\n.SH \"TRUG {}\"\n", words.to_uppercase());
        assert!(page.contains(&heading), "{words}: {page}");
    }
    if !grower.types("command -v groff").status.success() {
        return;
    }
    let mut groff = Command::new("groff")
        .args(["-man", "-Tutf8", "-ww", "-rLL=200n"])
        .env("GROFF_NO_SGR", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("groff");
    let mut into = groff.stdin.take().expect("a way in");
    let writer = std::thread::spawn(move || into.write_all(page.as_bytes()));
    let output = groff.wait_with_output().expect("groff ends");
    writer.join().expect("a thread").expect("all of it read");
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    let read = String::from_utf8_lossy(&output.stdout).replace(['\u{2010}', '\u{2212}'], "-");
    for (_, examples) in EXAMPLES {
        for example in examples {
            let plain = |text: &str| text.replace(['\u{2019}', '\''], "'");
            assert!(
                plain(&read).contains(&plain(example.line)),
                "{}",
                example.line
            );
        }
    }
}
