# shellcheck shell=bash disable=SC2154 # sourced by ../build, whose names it uses
# Packaging: classes -> ProGuard (less of it) -> Desugar (no lambdas) -> dex -> resources -> aligned -> signed.

readonly PACKING="$MADE/packing"
readonly APK="$MADE/swardbook.apk"
readonly SHELL_APK="$MADE/swardbook-shell-only.apk"

# For whom the core is built: Android's name, Rust's, and how the NDK's compiler is called.
readonly ABIS=(
  "arm64-v8a aarch64-linux-android aarch64-linux-android"
  "armeabi-v7a armv7-linux-androideabi armv7a-linux-androideabi"
  "x86_64 x86_64-linux-android x86_64-linux-android"
)
readonly API=26

packing_tools() {
  local made="$PACKING/tools/.made"
  if [[ ! package/pom.xml -ot $made || ! pom.xml -ot $made ]]; then
    rm -rf "$PACKING/tools"
    maven --file package/pom.xml dependency:copy-dependencies -DoutputDirectory="$PACKING/tools"
    local jna
    jna=$(version_of jna.version)
    maven dependency:copy -DoutputDirectory="$PACKING/tools" -Dartifact="net.java.dev.jna:jna:$jna:aar"
    (cd "$PACKING/tools" && mkdir -p jna && cd jna && jar xf "../jna-$jna.aar")
    touch "$made"
  fi
}

# The classes that the tests ran on, as the phone's byte code.
dex() {
  local java_home stdlib
  compile
  stdlib=$(version_of kotlin.version)
  maven dependency:copy -DoutputDirectory="$PACKING/in" -Dartifact="org.jetbrains.kotlin:kotlin-stdlib:$stdlib"
  rm -rf "$PACKING"/{classes,small,plain}.jar "$PACKING/apk"
  mkdir -p "$PACKING/apk"
  jar cf "$PACKING/classes.jar" -C "$MADE/classes" .
  java_home=$(java -XshowSettings:properties -version 2>&1 | sed -n 's/^ *java.home = //p')
  java -Xmx3g -cp "$PACKING/tools/*" proguard.ProGuard @package/shell.pro \
    -injars "$PACKING/classes.jar" \
    -injars "$PACKING/in/kotlin-stdlib-$stdlib.jar(!META-INF/**,**.class)" \
    -injars "$PACKING/tools/jna/classes.jar(!META-INF/**,**.class)" \
    -outjars "$PACKING/small.jar" \
    -libraryjars "$PLATFORM(!java/**;!javax/**;**.class)" \
    -libraryjars "$java_home/jmods/java.base.jmod(!**.jar;!module-info.class)" \
    -libraryjars "$java_home/jmods/java.logging.jmod(!**.jar;!module-info.class)" \
    >"$PACKING/proguard.log" 2>&1 || { grep -v '^Note' "$PACKING/proguard.log"; return 1; }
  # A warning is a class that would be missing on the phone.
  if grep '^Warning' "$PACKING/proguard.log"; then return 1; fi
  java -cp "$PACKING/tools/*" package/Desugar.java "$PACKING/small.jar" "$PACKING/plain.jar"
  java -Xmx2g -cp "$PACKING/tools/*" com.android.dx.command.Main --dex --min-sdk-version=$API \
    --output="$PACKING/apk/classes.dex" "$PACKING/plain.jar"
}

# Puts together what lies in $PACKING/apk, and signs it.
sign_into() {
  local made=$1 key=${SWARD_KEYSTORE:-$PACKING/try-out.p12} password=${SWARD_KEYSTORE_PASSWORD:-trying-out}
  local -a alias=()
  rm -f "$made" "$PACKING"/*.apk
  if [[ -n ${SWARD_KEYSTORE:-} && ! -f $key ]]; then
    echo "No APK was made: SWARD_KEYSTORE names $key, which is not there." >&2
    return 1
  fi
  if [[ -n ${SWARD_KEY_ALIAS:-} ]]; then alias=(--ks-key-alias "$SWARD_KEY_ALIAS"); fi
  cp "$MADE/res/resources.apk" "$PACKING/unaligned.apk"
  (cd "$PACKING/apk" && zip -q -X ../unaligned.apk classes.dex)
  # Without entries for folders: signing leaves those out, and what follows would move.
  if [[ -d $PACKING/apk/lib ]]; then
    (cd "$PACKING/apk" && zip -q -X -0 -D -r ../unaligned.apk lib)
  fi
  zipalign -f 16384 "$PACKING/unaligned.apk" "$PACKING/aligned.apk"
  if [[ ! -f $key ]]; then
    keytool -genkeypair -keystore "$key" -storetype PKCS12 -storepass "$password" -alias try-out \
      -keyalg RSA -keysize 3072 -validity 3650 -dname "CN=Swardbook for trying out" 2>/dev/null
  fi
  # By the environment: a command line can be read by everyone on the machine.
  SWARD_KEYSTORE_PASSWORD=$password apksigner sign --ks "$key" "${alias[@]}" \
    --ks-pass env:SWARD_KEYSTORE_PASSWORD --min-sdk-version $API --v1-signing-enabled false --out "$made" "$PACKING/aligned.apk"
  rm -f "$made.idsig"
  echo "made $made"
}

# What the core for phones needs and is not here, each on its line; nothing when all is here.
missing_for_core() {
  local ndk=${ANDROID_NDK_HOME:-} bin abi rust clang tool
  if [[ -z $ndk ]]; then
    echo "an NDK: name its folder in ANDROID_NDK_HOME (the core holds C code, which it compiles)"
  fi
  bin=$(ndk_bin)
  for abi in "${ABIS[@]}"; do
    read -r _ rust clang <<<"$abi"
    if ! rustc --print target-libdir --target "$rust" 2>/dev/null | xargs -r test -d; then
      echo "Rust for $rust: rustup target add $rust"
    fi
    if [[ -n $ndk && ! -x $bin/$clang$API-clang ]]; then
      echo "the NDK's compiler for $rust: $bin/$clang$API-clang is not there"
    fi
  done
  for tool in llvm-ar llvm-strip; do
    if [[ -n $ndk && ! -x $bin/$tool ]]; then echo "the NDK's $tool: $bin/$tool is not there"; fi
  done
}

ndk_bin() { echo "${ANDROID_NDK_HOME:-}/toolchains/llvm/prebuilt/linux-x86_64/bin"; }

# The core for one kind of phone, stripped, beside JNA's part for it.
core_for() {
  local name=$1 rust=$2 clang bin into
  bin=$(ndk_bin)
  clang=$bin/$3$API-clang
  into=$PACKING/apk/lib/$name
  local upper=${rust//-/_}
  (
    cd ..
    export "CC_$upper=$clang" "AR_$upper=$bin/llvm-ar"
    export "CARGO_TARGET_${upper^^}_LINKER=$clang"
    # Phones with pages of 16 KB load only what is laid out for them.
    export "CARGO_TARGET_${upper^^}_RUSTFLAGS=-C link-arg=-Wl,-z,max-page-size=16384"
    cargo build --package sward-ffi --lib --profile phone --locked --target "$rust"
  )
  mkdir -p "$into"
  "$bin/llvm-strip" -o "$into/libsward_ffi.so" "$TARGET/$rust/phone/libsward_ffi.so"
  cp "$PACKING/tools/jna/jni/$name/libjnidispatch.so" "$into/"
}

apk() {
  local missing abi
  rm -f "$APK"
  missing=$(missing_for_core)
  if [[ -n $missing ]]; then
    echo "No APK was made. For one with the core, this is missing:" >&2
    echo "$missing" >&2
    return 1
  fi
  resources
  packing_tools
  dex
  for abi in "${ABIS[@]}"; do
    # shellcheck disable=SC2086 # three words
    core_for $abi
  done
  sign_into "$APK"
}

# Everything but the core; its name, version and manifest say so.
shell_apk() {
  resources --shell-only
  packing_tools
  dex
  sign_into "$SHELL_APK"
}
