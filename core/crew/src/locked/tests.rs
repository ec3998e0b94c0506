//! The bytes of a locked file: snapshots of what anyone sees and of what is inside, and what the
//! reader makes of frames that no program of ours writes.

use std::io::{Cursor, Write as _};

use sward_book::ids::Hash;

use super::frame::{Frame, FrameReader, FrameWriter, Whole};
use super::header::Header;
use super::make::write_inside;
use super::{Locking, MAGIC};
use crate::testing::{Phone, in_lines};
use crate::{CrewError, Log as _, Result};

/// Made for these tests alone.
const IDENTITY: &str = "AGE-SECRET-KEY-1SKHRSF5ESK9U0H6M2VN6R2HYGND9XDK3Y568YR0MY0GS6EY5P9LQEWJQ8G";
const NONCE: [u8; 16] = [5; 16];

/// A founder's file with the founding alone: crew, sender, what is inside.
fn inside() -> (Hash, Phone, Vec<u8>) {
    let mut phone = Phone::with_identity(1, IDENTITY);
    phone.found();
    let crew = phone.log.crew().unwrap().unwrap();
    let locking = Locking {
        secret: &phone.secret,
        members: &[],
        made: phone.stamp(),
        since: &[],
    };
    let (inside, made) = write_inside(Vec::new(), &locking, &phone.log, crew, NONCE).unwrap();
    assert_eq!(made.entries, 1);
    (crew, phone, inside)
}

fn read_all(inside: &[u8]) -> Result<(Whole, super::frame::End)> {
    let mut frames = FrameReader::new(Cursor::new(inside));
    frames.manifest()?;
    let mut entries = 0;
    loop {
        match frames.entries()? {
            Ok(wires) => entries += wires.len() as u64,
            Err(end) => {
                let sha256 = frames.sha256();
                frames.check_padding()?;
                return Ok((
                    Whole {
                        crew: Hash::NONE,
                        nonce: NONCE,
                        entries,
                        sha256,
                    },
                    end,
                ));
            }
        }
    }
}

/// A change here is a new format.
#[test]
fn wire_forms() {
    let mut header = Vec::new();
    Header::new(Hash([7; 32]), NONCE)
        .write(&mut header)
        .unwrap();
    insta::assert_snapshot!("header", in_lines(&header));
    let (_, _, inside) = inside();
    insta::assert_snapshot!("inside", in_lines(&inside));
}

#[test]
fn the_signature_covers_crew_nonce_number_and_content() {
    let (crew, phone, inside) = inside();
    let (whole, end) = read_all(&inside).unwrap();
    let whole = Whole { crew, ..whole };
    assert!(whole.is_signed_by(phone.stream(), &end));
    assert!(!whole.is_signed_by(Phone::new(2).stream(), &end));
    let of = |crew, nonce, entries, sha256| Whole {
        crew,
        nonce,
        entries,
        sha256,
    };
    let Whole {
        nonce,
        entries,
        sha256,
        ..
    } = whole;
    assert!(!of(Hash([1; 32]), nonce, entries, sha256).is_signed_by(phone.stream(), &end));
    assert!(!of(crew, [6; 16], entries, sha256).is_signed_by(phone.stream(), &end));
    assert!(!of(crew, nonce, entries + 1, sha256).is_signed_by(phone.stream(), &end));
    assert!(!of(crew, nonce, entries, [0; 32]).is_signed_by(phone.stream(), &end));
}

/// Locks any bytes as if they were the inside of a file of `crew`.
fn lock(inside: &[u8], crew: Hash, nonce: [u8; 16], to: &Phone) -> Vec<u8> {
    let mut file = Vec::new();
    Header::new(crew, nonce).write(&mut file).unwrap();
    let recipient = crate::keys::recipient(&to.keys().recipient).unwrap();
    let recipients = [&recipient as &dyn age::Recipient];
    let locked = age::Encryptor::with_recipients(recipients.into_iter()).unwrap();
    let mut out = locked.wrap_output(file).unwrap();
    out.write_all(inside).unwrap();
    out.finish().unwrap()
}

/// Any member can lock bytes for another; only the sender can sign them.
#[test]
fn a_member_cannot_alter_what_another_has_signed() {
    let (crew, mut phone, inside) = inside();
    let honest = lock(&inside, crew, NONCE, &phone);
    assert_eq!(phone.take(&honest).unwrap().known_entries, 1);
    let refused = |phone: &mut Phone, inside: &[u8], nonce| {
        let file = lock(inside, crew, nonce, phone);
        assert!(matches!(phone.take(&file), Err(CrewError::Damaged(_))));
    };
    // In another file's envelope; with more after it; another sender; another time.
    refused(&mut phone, &inside, [6; 16]);
    refused(&mut phone, &[inside.as_slice(), b"more"].concat(), NONCE);
    let sender = phone.stream().0;
    let at = inside.windows(32).position(|w| w == sender).unwrap();
    for altered_at in [at, at + 32 + 6] {
        let mut altered = inside.clone();
        altered[altered_at] ^= 1;
        refused(&mut phone, &altered, NONCE);
    }
}

#[test]
fn what_comes_after_a_bad_entry_is_refused_with_it_in_later_frames_too() {
    let (crew, mut phone, inside) = inside();
    let manifest = FrameReader::new(Cursor::new(&inside)).manifest().unwrap();
    let mut forger = Phone::new(6);
    let entry = forger.ask();
    let mut altered = entry.wire().to_vec();
    *altered.last_mut().unwrap() ^= 1;
    let mut frames = FrameWriter::new(Vec::new());
    frames.write(&Frame::Manifest(manifest)).unwrap();
    for wire in [
        altered,
        entry.wire().to_vec(),
        Phone::joiner(7)
            .log
            .entries()
            .next()
            .unwrap()
            .wire()
            .to_vec(),
    ] {
        frames.write(&Frame::Entries(vec![wire.into()])).unwrap();
    }
    let whole = Whole {
        crew,
        nonce: NONCE,
        entries: 3,
        sha256: frames.sha256(),
    };
    frames
        .write(&Frame::End(whole.sign(phone.secret.signing())))
        .unwrap();
    let (inside, _) = frames.pad().unwrap();
    let taken = phone.take(&lock(&inside, crew, NONCE, &phone)).unwrap();
    assert_eq!(taken.new_entries, 1);
    assert_eq!(taken.refused.len(), 1);
    assert!(!phone.log.holds(entry.hash()).unwrap());
}

#[test]
fn odd_frames_are_refused() {
    let (_, _, inside) = inside();
    let damaged = |bytes: &[u8]| {
        assert!(
            matches!(read_all(bytes), Err(CrewError::Damaged(_))),
            "{}",
            in_lines(bytes)
        );
    };
    // A length not in its shortest form: the manifest's, of less than 256 bytes.
    assert_eq!(inside[0], 0x58);
    damaged(&[&[0x59, 0], &inside[1..]].concat());
    // A frame of 4 GB, of the wrong type, of an unknown kind.
    damaged(&[0x5a, 0xff, 0xff, 0xff, 0xff]);
    damaged(&[0x00]);
    damaged(&[0x44, 0x82, 0x07, 0x81, 0x00]);
    // Padding that is not zero, too long, too short.
    let mut tainted = inside.clone();
    *tainted.last_mut().unwrap() = 1;
    damaged(&tainted);
    damaged(&[inside.as_slice(), &[0]].concat());
    damaged(&inside[..inside.len() - 1]);
}

#[test]
fn frames_out_of_order_are_refused() {
    let (_, phone, inside) = inside();
    let mut frames = FrameReader::new(Cursor::new(&inside));
    let manifest = frames.manifest().unwrap();
    let entries = |wires: Vec<Vec<u8>>| Frame::Entries(wires.into_iter().map(Into::into).collect());
    let whole = Whole {
        crew: Hash::NONE,
        nonce: NONCE,
        entries: 0,
        sha256: [0; 32],
    };
    let end = Frame::End(whole.sign(phone.secret.signing()));
    let big = vec![vec![0; 200 * 1024], vec![0; 200 * 1024]];
    let wrong = [
        vec![end.clone()],
        vec![entries(vec![vec![1]]), end.clone()],
        vec![
            Frame::Manifest(manifest.clone()),
            Frame::Manifest(manifest.clone()),
            end.clone(),
        ],
        vec![
            Frame::Manifest(manifest.clone()),
            entries(Vec::new()),
            end.clone(),
        ],
        vec![Frame::Manifest(manifest), entries(big), end],
    ];
    for (n, course) in wrong.iter().enumerate() {
        let mut writer = FrameWriter::new(Vec::new());
        for frame in course {
            writer.write(frame).unwrap();
        }
        let (bytes, _) = writer.pad().unwrap();
        assert!(
            matches!(read_all(&bytes), Err(CrewError::Damaged(_))),
            "course {n}"
        );
    }
}

#[test]
fn the_first_line_is_of_24_bytes() {
    assert_eq!(MAGIC.line().len(), 24);
}
