// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A page that goes with a car, seen before it is printed or saved: the door sheet, or the tag of one
// of its wheels.
//   paper;  openDoorSheet(carId), openTag(carId) show it
DialogSheet {
    id: root

    required property PaperView paper
    property bool tag: false
    readonly property bool beside: width > Theme.mm(300)

    function openDoorSheet(carId: string): void {
        root.tag = false
        root.paper.makeDoorSheet(carId)
        root.shown = true
    }

    function openTag(carId: string): void {
        root.tag = true
        root.paper.askForTag(carId)
        root.shown = true
    }

    function put(): void {
        root.shown = false
        root.paper.close()
    }

    title: root.tag ? qsTr("Tag of a wheel") : qsTr("Door sheet")
    sheetWidth: Math.min(Theme.mm(260), width - 2 * Theme.margin)
    onDismissed: root.put()

    Column {
        width: parent.width
        spacing: Theme.module

        Grid {
            width: parent.width
            columns: root.beside ? 2 : 1
            spacing: Theme.mm(6)

            Rectangle {
                id: plate

                readonly property real room: root.beside ? Theme.mm(112) : parent.width
                readonly property real page: Math.min(room, (height - 2 * Theme.half) * root.paper.aspect)

                width: room
                height: root.tag ? Theme.mm(70) : Theme.mm(152)
                color: Theme.sunk
                radius: Theme.radius

                Image {
                    anchors.centerIn: parent
                    width: Math.min(plate.page, parent.width - 2 * Theme.half)
                    height: width / root.paper.aspect
                    visible: root.paper.made
                    source: root.paper.pageUrl
                    sourceSize.width: Math.ceil(width)
                    sourceSize.height: Math.ceil(height)
                    fillMode: Image.PreserveAspectFit
                    asynchronous: true
                    cache: false
                }

                Waiting {
                    anchors.centerIn: parent
                    paper: true
                    visible: !root.paper.made && root.paper.ask.busy
                    text: qsTr("Making the page")
                }

                Label {
                    anchors.centerIn: parent
                    width: parent.width - 2 * Theme.module
                    visible: root.tag && !root.paper.made && !root.paper.ask.busy && !root.paper.ask.refused
                    text: qsTr("Which wheel goes with the tag?")
                    muted: true
                    horizontalAlignment: Text.AlignHCenter
                    wrapMode: Text.WordWrap
                }
            }

            Column {
                width: root.beside ? parent.width - plate.width - Theme.mm(6) : parent.width
                spacing: Theme.module

                ChoiceChips {
                    width: parent.width
                    visible: root.tag
                    choices: root.paper.corners
                }

                Label {
                    width: parent.width
                    visible: !root.tag
                    text: qsTr("An A5 page to hang in the car while it is in prep. Hang up a new one when what is outstanding has changed: paper grows old.")
                    wrapMode: Text.WordWrap
                }

                Label {
                    width: parent.width
                    text: root.paper.printer.length > 0 ? qsTr("Printer: %1").arg(root.paper.printer)
                        : qsTr("No printer is set on this kiosk. A manager chooses one under Staff and bays, Settings, Screen. Until then, save the page and print it elsewhere.")
                    muted: true
                    wrapMode: Text.WordWrap
                }
            }
        }

        Banner {
            width: parent.width
            visible: (root.paper.ask.refused && !root.paper.ask.busy) || root.paper.outcome.length > 0
            kind: root.paper.ask.refused ? Banner.Fault : Banner.Note
            what: root.paper.ask.refused ? root.paper.ask.words : root.paper.outcome
            action: root.paper.ask.canRetry ? qsTr("Try again") : ""
            closable: false
            onActed: root.paper.ask.retry()
            onClosed: root.paper.ask.dismiss()
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.put()
        },
        ActionButton {
            paper: true
            visible: root.paper.stick.length > 0
            text: qsTr("Onto the stick")
            available: root.paper.made && !root.paper.ask.busy
            onTapped: root.paper.saveToStick()
        },
        ActionButton {
            paper: true
            kind: root.paper.printer.length > 0 ? ActionButton.Plain : ActionButton.Accent
            text: qsTr("Save as PDF")
            available: root.paper.made && !root.paper.ask.busy
            onTapped: root.paper.save()
        },
        ActionButton {
            paper: true
            visible: root.paper.printer.length > 0
            // Once it was sent, what comes next is not to send it again.
            kind: root.paper.outcome.length > 0 ? ActionButton.Plain : ActionButton.Accent
            text: qsTr("Print")
            available: root.paper.made && !root.paper.ask.busy
            onTapped: root.paper.print()
        }
    ]
}
