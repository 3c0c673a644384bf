#!/bin/sh
# pack.sh FOLDER VERSION FILE.vsix: the extension for Visual Studio Code, with what it needs from npm: an archive with a manifest (Open Packaging
# Conventions, ECMA-376 part 2).
set -eu
here=$(cd "${0%/*}" && pwd)
folder=$1
version=$2
rm -rf "$folder"
mkdir -p "$folder/extension/syntaxes"
for file in extension.js language-configuration.json package-lock.json; do cp "$here/$file" "$folder/extension/"; done
cp "$here/syntaxes/bath.tmLanguage.json" "$folder/extension/syntaxes/"
cp "$here/../../../LICENSE" "$folder/extension/LICENSE.txt"
cp "$here/../../editors.md" "$folder/extension/README.md"
sed "s/\"version\": \"0.0.0\"/\"version\": \"$version\"/" "$here/package.json" >"$folder/extension/package.json"
(cd "$folder/extension" && npm ci --omit=dev --ignore-scripts --no-audit --no-fund >/dev/null)
field() { sed -n "s/^  \"$1\": \"\(.*\)\",\$/\1/p" "$here/package.json"; }
cat >"$folder/[Content_Types].xml" <<XML
<?xml version="1.0" encoding="utf-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
$(find "$folder" -type f ! -name '*]*' | sed -n 's/.*\.\([A-Za-z0-9]*\)$/\1/p' | sort -u | while read -r ending; do
    case $ending in json) type=application/json ;; js) type=application/javascript ;; xml | vsixmanifest) type=text/xml ;; *) type=text/plain ;; esac
    echo "  <Default Extension=\".$ending\" ContentType=\"$type\"/>"
done)
  <Default Extension=".vsixmanifest" ContentType="text/xml"/>
</Types>
XML
cat >"$folder/extension.vsixmanifest" <<XML
<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011">
  <Metadata>
    <Identity Language="en-US" Id="$(field name)" Version="$version" Publisher="$(field publisher)"/>
    <DisplayName>$(field displayName)</DisplayName>
    <Description xml:space="preserve">$(field description)</Description>
    <Categories>Programming Languages,Formatters</Categories>
    <Properties>
      <Property Id="Microsoft.VisualStudio.Code.Engine" Value="$(sed -n 's/^    "vscode": "\(.*\)"$/\1/p' "$here/package.json")"/>
      <Property Id="Microsoft.VisualStudio.Code.ExtensionKind" Value="workspace"/>
    </Properties>
    <License>extension/LICENSE.txt</License>
  </Metadata>
  <Installation>
    <InstallationTarget Id="Microsoft.VisualStudio.Code"/>
  </Installation>
  <Dependencies/>
  <Assets>
    <Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.Details" Path="extension/README.md" Addressable="true"/>
    <Asset Type="Microsoft.VisualStudio.Services.Content.License" Path="extension/LICENSE.txt" Addressable="true"/>
  </Assets>
</PackageManifest>
XML
rm -f "$3"
archive=$(cd "${3%/*}" && pwd)/${3##*/}
(cd "$folder" && zip -qrX "$archive" '[Content_Types].xml' extension.vsixmanifest extension)
