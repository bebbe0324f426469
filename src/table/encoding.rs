//! Bytes to text: the encodings that spreadsheets write CSV in.

use std::fmt;

use encoding_rs::{UTF_16BE, UTF_16LE, WINDOWS_1252};

/// How a text was encoded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8, with a byte-order mark or without.
    Utf8,
    /// UTF-16 with a byte-order mark, low byte first.
    Utf16Le,
    /// UTF-16 with a byte-order mark, high byte first.
    Utf16Be,
    /// Windows-1252, taken where the bytes are not UTF-8: every byte is a character in it, so it
    /// may be the wrong one, and who asks should be told.
    Windows1252,
}

/// The text of `bytes` without its byte-order mark, and how it was encoded.
///
/// # Errors
/// One clause with what was found and what was expected: UTF-16 with a broken character, or a zero
/// byte, which no text has and most other files do.
pub fn decode(bytes: &[u8]) -> Result<(String, Encoding), String> {
    let (text, encoding) = if let Some(rest) = bytes.strip_prefix(b"\xff\xfe") {
        (
            UTF_16LE.decode_without_bom_handling(rest),
            Encoding::Utf16Le,
        )
    } else if let Some(rest) = bytes.strip_prefix(b"\xfe\xff") {
        (
            UTF_16BE.decode_without_bom_handling(rest),
            Encoding::Utf16Be,
        )
    } else {
        let rest = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
        match std::str::from_utf8(rest) {
            Ok(text) => ((text.into(), false), Encoding::Utf8),
            Err(_) => (
                WINDOWS_1252.decode_without_bom_handling(rest),
                Encoding::Windows1252,
            ),
        }
    };
    match text {
        (_, true) => Err(format!("found a broken character, expected {encoding}")),
        (text, false) if text.contains('\0') => {
            Err("found a zero byte, expected text, or a workbook in XLSX or ODS".to_string())
        }
        (text, false) => Ok((text.into_owned(), encoding)),
    }
}

impl fmt::Display for Encoding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Encoding::Utf8 => "UTF-8",
            Encoding::Utf16Le | Encoding::Utf16Be => "UTF-16",
            Encoding::Windows1252 => "Windows-1252",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bytes are the encodings' own: the Encoding Standard (WHATWG), index windows-1252, and
    /// RFC 2781 for UTF-16; `é` and the euro sign, which Latin-1 does not have at 0x80.
    #[test]
    fn each_encoding_gives_the_same_text() {
        for (bytes, encoding) in [
            (&b"\xc3\xa9\xe2\x82\xac"[..], Encoding::Utf8),
            (b"\xef\xbb\xbf\xc3\xa9\xe2\x82\xac", Encoding::Utf8),
            (b"\xff\xfe\xe9\x00\xac\x20", Encoding::Utf16Le),
            (b"\xfe\xff\x00\xe9\x20\xac", Encoding::Utf16Be),
            (b"\xe9\x80", Encoding::Windows1252),
        ] {
            assert_eq!(decode(bytes), Ok(("é€".to_string(), encoding)));
        }
    }

    #[test]
    fn what_is_no_text_is_refused() {
        for bytes in [
            &b"\x89PNG\x00"[..],
            b"\xff\xfe\x00",
            b"\xff\xfe\x00\xd8",
            b"a\x00",
        ] {
            assert!(decode(bytes).is_err(), "{bytes:?}");
        }
    }
}
