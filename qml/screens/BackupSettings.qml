// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// How the workshop's backups stand, and where they go.
//   backups;  signal folderWanted()
Item {
    id: root

    required property BackupView backups

    signal folderWanted

    Column {
        id: head

        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: qsTr("Once a day the whole workshop is copied to another disk and checked there: ledger, photos, words of walk-rounds. A backup is brought back with the command: ramplight restore.")
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        Banner {
            width: parent.width
            visible: root.backups.worrying
            kind: Banner.Note
            closable: false
            what: root.backups.warning
        }

        Banner {
            width: parent.width
            visible: root.backups.broughtBack.length > 0
            kind: Banner.Note
            closable: false
            what: root.backups.broughtBack
            kept: root.backups.broughtAlong
        }

        Column {
            width: parent.width

            SettingLine {
                title: root.backups.siteWords.length > 0 ? qsTr("Last whole backup of this kiosk") : qsTr("Last whole backup")
                detail: root.backups.working ? qsTr("one is being made now") : root.backups.folder.length > 0 ? root.backups.atWords : ""
                value: root.backups.lastWords
                mark: root.backups.worrying ? SettingLine.Overdue : SettingLine.Plain
                editable: false
            }

            // One of the kiosks of a server makes the backups of all.
            SettingLine {
                visible: root.backups.siteWords.length > 0
                title: qsTr("Last whole backup of this site")
                detail: qsTr("of all its kiosks")
                value: root.backups.siteWords
                editable: false
            }

            SettingLine {
                title: qsTr("Kept in")
                detail: root.backups.folder
                value: root.backups.folder.length > 0 ? qsTr("Change") : qsTr("Choose a folder")
                onTapped: root.folderWanted()
            }

            SettingLine {
                visible: root.backups.keyCopyWords.length > 0
                title: qsTr("Last copy of the site's key file")
                detail: root.backups.keyCopied ? "" : qsTr("made with the command: ramplight key copy PLACE")
                value: root.backups.keyCopyWords
                mark: root.backups.keyCopied ? SettingLine.Plain : SettingLine.Overdue
                editable: false
            }
        }

        Label {
            width: parent.width
            text: qsTr("The site's key file is in no backup, so that a stolen one opens nothing. Keep a copy of it apart: without it the workshop cannot be opened, nor a backup brought back.")
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }
    }
}
