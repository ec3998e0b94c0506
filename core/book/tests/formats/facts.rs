//! Facts and entries.

use ed25519_dalek::SigningKey;
use sward_book::fact::Fact;
use sward_book::ids::{Hash, SheetId, StreamId};
use sward_book::log::{Body, ENTRY_FORMAT, Entry, SheetChange, sign_entry};
use sward_book::sheet::SheetKind;

use crate::samples::{every_fact, stamp, treatment};
use crate::shown;

#[test]
fn each_fact() {
    let facts = every_fact();
    let mut numbers = Vec::new();
    for fact in &facts {
        let bytes = minicbor::to_vec(fact).unwrap();
        assert_eq!(minicbor::decode::<Fact>(&bytes).unwrap(), *fact);
        let name = serde_json::to_value(fact).unwrap()["fact"]
            .as_str()
            .unwrap()
            .to_owned();
        numbers.push(minicbor::Decoder::new(&bytes[1..]).u32().unwrap());
        insta::assert_snapshot!(format!("fact_{name}"), shown(&bytes));
    }
    // A new fact takes the next number and a sample here: none is missing between.
    assert_eq!(
        numbers,
        (0..u32::try_from(facts.len()).unwrap()).collect::<Vec<_>>()
    );
    let next = [0x82, 0x18, u8::try_from(facts.len()).unwrap(), 0x80];
    assert!(
        minicbor::decode::<Fact>(&next).is_err(),
        "a fact without a sample"
    );
}

#[test]
fn an_entry() {
    let key = SigningKey::from_bytes(&[42; 32]);
    let body = Body {
        format: ENTRY_FORMAT,
        stream: StreamId(key.verifying_key().to_bytes()),
        seq: 2,
        prev: Hash([1; 32]),
        seen: vec![Hash([2; 32])],
        lamport: 7,
        written: stamp(),
        facts: vec![every_fact().remove(7)],
        changes: vec![SheetChange {
            sheet: SheetId(uuid::Uuid::from_u128(5)),
            kind: SheetKind::Plan,
            nonce: 3,
            change: vec![1, 2, 3],
        }],
    };
    let entry = sign_entry(body, &key);
    insta::assert_snapshot!(
        "entry",
        format!("{}\n{}", shown(entry.wire()), entry.hash())
    );
    assert_eq!(Entry::from_own_store(entry.wire().to_vec()).unwrap(), entry);
}

#[test]
fn a_treatment() {
    let (bytes, hash) = treatment().freeze();
    insta::assert_snapshot!("treatment", format!("{}\n{hash}", shown(&bytes)));
}
