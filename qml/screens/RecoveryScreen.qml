// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The workshop's database is damaged: what happened, and the last backup, or who has one.
//   shell
Item {
    id: root

    required property Shell shell
    readonly property RecoveryView recovery: shell.recovery

    Rectangle {
        anchors.fill: parent
        color: Theme.ground
    }

    Column {
        y: root.height * 0.14
        anchors.horizontalCenter: parent.horizontalCenter
        width: Math.min(Theme.mm(280), root.width - 2 * Theme.margin)
        spacing: Theme.margin

        Label {
            width: parent.width
            text: root.recovery.canWait ? qsTr("The workshop's file is damaged") : qsTr("The workshop cannot be opened")
            role: Label.Title
            paper: false
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            text: root.recovery.words
            paper: false
            wrapMode: Text.WordWrap
        }

        Rectangle {
            width: parent.width
            height: words.implicitHeight + 2 * Theme.margin
            radius: Theme.radius
            color: Theme.paper

            Column {
                id: words

                anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin }
                spacing: Theme.half

                Label {
                    width: parent.width
                    text: root.recovery.elsewhere ? qsTr("The workshop is on a server")
                        : root.recovery.looking ? qsTr("Looking for the last whole backup, and reading it from end to end")
                        : root.recovery.offer.length > 0 ? qsTr("The last whole backup") : qsTr("No whole backup was found")
                    role: Label.Detail
                    muted: true
                    wrapMode: Text.WordWrap
                }

                Label {
                    width: parent.width
                    visible: text.length > 0 && !root.recovery.looking
                    text: root.recovery.offer
                    role: Label.Title
                    wrapMode: Text.WordWrap
                }

                Label {
                    width: parent.width
                    visible: text.length > 0 && !root.recovery.looking
                    text: root.recovery.offerDetail
                    muted: true
                    wrapMode: Text.Wrap
                }

                Label {
                    width: parent.width
                    visible: !root.recovery.looking
                    text: root.recovery.elsewhere
                        ? qsTr("Call whoever looks after the server: a backup is brought back there, not at this kiosk. What is kept here meanwhile is left as it is, and is sent once the server is whole again.")
                        : root.recovery.offer.length > 0
                        ? qsTr("What was entered after that time is not in it. The damaged workshop is kept beside it under another name: somebody who knows may find more in there.")
                        : qsTr("Put the stick with the backups in and look again, or call whoever looks after this kiosk.")
                    wrapMode: Text.WordWrap
                }
            }
        }

        Banner {
            width: parent.width
            visible: root.recovery.fault.length > 0
            kind: Banner.Fault
            closable: false
            what: root.recovery.fault
        }
    }

    Row {
        anchors { right: parent.right; bottom: parent.bottom; margins: Theme.margin }
        spacing: Theme.gap

        ActionButton {
            visible: root.recovery.canWait
            text: qsTr("Go on with what can be read")
            available: !root.recovery.bringing
            onTapped: root.recovery.wait()
        }

        ActionButton {
            visible: !root.recovery.canWait
            text: qsTr("Try to open it again")
            available: !root.recovery.bringing
            onTapped: root.recovery.tryAgain()
        }

        ActionButton {
            visible: root.recovery.offer.length === 0 && !root.recovery.elsewhere
            text: qsTr("Look for backups again")
            available: !root.recovery.looking
            onTapped: root.recovery.look()
        }

        ActionButton {
            visible: root.recovery.offer.length > 0
            kind: ActionButton.Accent
            text: root.recovery.bringing ? qsTr("Bringing it back") : qsTr("Bring this backup back")
            available: !root.recovery.bringing && !root.recovery.looking
            reason: root.recovery.looking ? qsTr("looking for newer ones") : ""
            onTapped: sure.shown = true
        }
    }

    DialogSheet {
        id: sure

        title: qsTr("Bring the backup back?")
        sheetWidth: Math.min(Theme.mm(190), width - 2 * Theme.margin)
        onDismissed: sure.shown = false

        Label {
            width: parent.width
            text: qsTr("The workshop is then as it was on %1.").arg(root.recovery.offer)
            wrapMode: Text.WordWrap
        }

        actions: [
            ActionButton {
                paper: true
                text: qsTr("Cancel")
                onTapped: sure.shown = false
            },
            ActionButton {
                paper: true
                kind: ActionButton.Accent
                text: qsTr("Bring it back")
                onTapped: {
                    sure.shown = false
                    root.recovery.bringBack()
                }
            }
        ]
    }
}
