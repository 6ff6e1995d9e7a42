// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// To which folder the backups go.
//   backups;  open() shows it
TellingSheet {
    id: root

    required property BackupView backups

    function open(): void {
        root.backups.ask.dismiss()
        typed.text = root.backups.folder
        root.backups.refresh()
        root.shown = true
    }

    ask: backups.ask
    title: qsTr("Where backups go")
    sheetWidth: Math.min(Theme.mm(230), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Connections {
        target: root.backups.ask

        function onDone(what: string): void {
            root.shown = false
        }
    }

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("A folder on another disk than the workshop's: a stick that stays plugged in, or a disk of the house's network that is mounted here.")
            wrapMode: Text.WordWrap
        }

        Flow {
            width: parent.width
            spacing: Theme.gap

            Repeater {
                model: root.backups.places

                delegate: ChoiceChip {
                    required property string modelData

                    text: modelData
                    selected: typed.text === modelData
                    onTapped: typed.text = modelData
                }
            }
        }

        Label {
            width: parent.width
            visible: root.backups.places.length === 0
            text: qsTr("No stick is plugged in now.")
            muted: true
            wrapMode: Text.WordWrap
        }

        Field {
            id: typed

            objectName: "typed"
            width: parent.width
            label: qsTr("Folder")
            placeholder: qsTr("none: no backups are made")
            maximumLength: 200
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Cancel")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            visible: root.backups.folder.length > 0
            text: qsTr("Make no backups")
            onTapped: root.backups.setFolder("")
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: qsTr("Save")
            available: typed.text.trim().length > 0 && !root.backups.ask.busy
            reason: qsTr("a folder")
            onTapped: root.backups.setFolder(typed.text)
        }
    ]
}
