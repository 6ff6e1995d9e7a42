// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The workshop's database is damaged: what happened, and what helps. Where the ledger is whole the
// file is made anew; otherwise there is the last backup, or who has one.
//   shell
Item {
    id: root

    required property Shell shell
    readonly property RecoveryView recovery: shell.recovery
    readonly property bool idle: !recovery.looking && !recovery.mending
    // What is second best is offered once the best failed.
    readonly property bool backupWanted: !recovery.remakable || recovery.fault.length > 0

    // A heading, what there is, and what comes of it.
    component Standing: Column {
        id: standing

        property string heading: ""
        property string what: ""
        property string detail: ""
        property string faults: ""
        property string next: ""

        width: parent ? parent.width : 0
        spacing: Theme.half

        Label {
            width: parent.width
            text: standing.heading
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: standing.what
            role: Label.Title
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: standing.detail
            muted: true
            wrapMode: Text.Wrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: standing.faults
            wrapMode: Text.Wrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: standing.next
            wrapMode: Text.WordWrap
        }
    }

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
            // They ask for a backup.
            visible: root.backupWanted
            text: root.recovery.words
            paper: false
            wrapMode: Text.WordWrap
        }

        Rectangle {
            width: parent.width
            height: standings.implicitHeight + 2 * Theme.margin
            radius: Theme.radius
            color: Theme.paper

            Column {
                id: standings

                anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin }
                spacing: Theme.margin

                Standing {
                    visible: root.recovery.elsewhere
                    heading: qsTr("The workshop is on a server")
                    next: qsTr("Call whoever looks after the server: a backup is brought back there, not at this kiosk. What is kept here meanwhile is left as it is, and is sent once the server is whole again.")
                }

                Standing {
                    visible: root.idle && root.recovery.remakable
                    heading: qsTr("Nothing is lost")
                    what: qsTr("The ledger is whole")
                    next: qsTr("Only what the wall is drawn from is damaged, and that is made anew out of the ledger, which may take some minutes. The damaged file is kept beside it under another name.")
                }

                Standing {
                    visible: root.recovery.looking
                    heading: qsTr("Looking what is damaged, and for the last whole backup")
                }

                Standing {
                    visible: root.recovery.mending
                    heading: qsTr("At work")
                    what: qsTr("The workshop is being mended")
                    next: qsTr("That may take some minutes. It opens by itself afterwards.")
                }

                Standing {
                    visible: root.idle && root.backupWanted && root.recovery.offer.length > 0
                    heading: qsTr("The last whole backup")
                    what: root.recovery.offer
                    detail: root.recovery.offerDetail
                    faults: root.recovery.offerFaults
                    next: qsTr("What was entered after that time is read out of the damaged file and comes along, car by car, as far as it is proven whole. What cannot be read is lost, and the wall then names the cars that somebody has to look at. The damaged workshop is kept under another name.")
                }

                Standing {
                    visible: root.idle && root.backupWanted && !root.recovery.elsewhere && root.recovery.offer.length === 0
                    heading: qsTr("No whole backup was found")
                    next: qsTr("Put the stick with the backups in and look again, or call whoever looks after this kiosk.")
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
            available: !root.recovery.mending
            onTapped: root.recovery.wait()
        }

        ActionButton {
            visible: !root.recovery.canWait
            text: qsTr("Try to open it again")
            available: !root.recovery.mending
            onTapped: root.recovery.tryAgain()
        }

        ActionButton {
            visible: root.backupWanted && root.recovery.offer.length === 0 && !root.recovery.elsewhere
            text: qsTr("Look for backups again")
            available: !root.recovery.looking
            onTapped: root.recovery.look()
        }

        ActionButton {
            visible: root.backupWanted && root.recovery.offer.length > 0
            kind: root.recovery.remakable ? ActionButton.Plain : ActionButton.Accent
            text: qsTr("Bring this backup back")
            available: root.idle
            reason: root.recovery.looking ? qsTr("looking for newer ones") : ""
            onTapped: sure.shown = true
        }

        ActionButton {
            visible: root.recovery.remakable
            kind: ActionButton.Accent
            text: qsTr("Make it anew")
            available: root.idle
            onTapped: root.recovery.remake()
        }
    }

    DialogSheet {
        id: sure

        title: qsTr("Bring the backup back?")
        sheetWidth: Math.min(Theme.mm(190), width - 2 * Theme.margin)
        onDismissed: sure.shown = false

        Label {
            width: parent.width
            text: qsTr("The workshop is then as it was on %1, with what was done since as far as the damaged file still has it whole.").arg(root.recovery.offer)
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
