# shellcheck shell=bash disable=SC2154 # sourced by ../build, whose names it uses
# Inspection of an APK that was made: what a phone would refuse, and what nobody meant to ask for.

wrong=0
expect() {
  local what=$1
  shift
  if "$@"; then
    echo "  ok     $what"
  else
    echo "  WRONG  $what"
    wrong=1
  fi
}

no_invoke_custom() {
  dexdump -d "$1/classes.dex" >"$1/code.txt" || return 1
  ! grep -q 'invoke-custom\|invoke-polymorphic' "$1/code.txt"
}
every_class_there() {
  dexdump "$1/classes.dex" | sed -n "s/.*Class descriptor *: 'L\(.*\);'/\1/p" | sort >"$1/classes.txt"
  local missing
  missing=$(cd "$MADE/classes" && find org/swardbook -name '*.class' ! -name 'R.class' ! -name 'R$*' |
    sed 's/\.class$//' | sort | comm -23 - "$1/classes.txt")
  if [[ -n $missing ]]; then
    echo "$missing"
    return 1
  fi
}
same_as_committed() { diff "package/$1" <(cat) >&2; }
permissions() { aapt2 dump badging "$1" | sed -n "s/^uses-permission: name='\([^']*\)'.*/\1/p" | sort; }
each_is_explained() {
  local name
  while read -r name; do
    grep -q "\`${name##*.}\`" README.md || { echo "    not in README.md: $name"; return 1; }
  done <package/permissions.txt
}
exported() {
  aapt2 dump xmltree --file AndroidManifest.xml "$1" | awk '
    /E: (activity|service|receiver|provider) / { kind = $2; name = "" }
    /android:name\(/ && kind != "" && name == "" { match($0, /"[^"]*"/); name = substr($0, RSTART + 1, RLENGTH - 2) }
    /android:exported\(.*=true/ { print kind, name }' | sort
}
badging() { grep -q "$2" <<<"$(aapt2 dump badging "$1")"; }
core_for_each_phone() {
  local abi name
  for abi in "${ABIS[@]}"; do
    for name in libsward_ffi.so libjnidispatch.so; do test -f "$1/lib/${abi%% *}/$name" || return 1; done
  done
}
pages_of_16_kb() {
  local library page
  for library in "$1"/lib/{arm64-v8a,x86_64}/*.so; do
    for page in $(readelf -lW "$library" | awk '$1 == "LOAD" { print $NF }' || echo 0); do
      if ((page < 16384)); then
        echo "    $library"
        return 1
      fi
    done
  done
}
signed_by() { grep -q "$2.*: true" <<<"$(apksigner verify --verbose --min-sdk-version 26 "$1")"; }

sizes() {
  local apk=$1 whole
  whole=$(stat -c %s "$apk")
  printf '\n  %-46s %10s %10s\n' part bytes 'in APK'
  unzip -v "$apk" | awk '$1 ~ /^[0-9]+$/ && NF == 8 { printf "  %-46s %10d %10d\n", $8, $1, $3 }' |
    sort -k3,3nr | head -12
  printf '  %-46s %10s %10d\n' 'the APK' '' "$whole"
}

inspect() {
  local apk=$APK inside="$PACKING/inside"
  if [[ $SHELL_APK -nt $APK ]]; then apk=$SHELL_APK; fi
  if [[ ! -f $apk ]]; then
    echo "There is no APK to inspect: make one first." >&2
    return 1
  fi
  echo "inspecting $(basename "$apk")"
  rm -rf "$inside"
  mkdir -p "$inside"
  (cd "$inside" && unzip -q "$apk")
  expect 'no invoke-custom, which API 26 cannot run' no_invoke_custom "$inside"
  expect 'every class of the shell' every_class_there "$inside"
  expect 'aligned to 16 KB' zipalign -c 16384 "$apk"
  expect 'signed, scheme v2' signed_by "$apk" 'v2 scheme'
  expect 'signed, scheme v3' signed_by "$apk" 'v3 scheme'
  expect 'package' badging "$apk" "package: name='org.swardbook.shell'"
  expect 'from API 26' badging "$apk" "sdkVersion:'26'"
  expect 'for API 34' badging "$apk" "targetSdkVersion:'34'"
  expect 'the permissions that are explained' same_as_committed permissions.txt < <(permissions "$apk")
  expect 'each of them in README.md' each_is_explained
  expect 'what other apps may reach' same_as_committed exported.txt < <(exported "$apk")
  if [[ $apk == "$SHELL_APK" ]]; then
    expect 'marked as without the core' badging "$apk" "versionName='[^']*-shell-only'"
    expect 'no core in it' test ! -e "$inside/lib"
  else
    expect 'the core and JNA for every kind of phone' core_for_each_phone "$inside"
    expect 'pages of 16 KB' pages_of_16_kb "$inside"
  fi
  sizes "$apk"
  return "$wrong"
}
