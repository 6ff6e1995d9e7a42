// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A photo for a purpose: from the camera when there is one, out of the drop folder, or from a phone.
//   shell, prompt (what it is to show), phoneOffered
//   signals frameTaken(var image), fileChosen(string path), phoneWanted() (open a code for it),
//   phoneDone(int came) (they are where they belong)
//   open() shows it
DialogSheet {
    id: root

    required property Shell shell
    property string prompt: ""
    property bool phoneOffered: true
    property bool byPhone: false

    signal frameTaken(var image)
    signal fileChosen(string path)
    signal phoneWanted
    signal phoneDone(int came)

    function open(): void {
        root.byPhone = false
        root.shell.dropped.refresh()
        root.shown = true
    }

    function leavePhone(): void {
        const came = pane.count
        root.shown = false
        root.shell.phone.end()
        root.phoneDone(came)
    }

    title: root.prompt
    sheetWidth: Math.min(Theme.mm(300), width - 2 * Theme.margin)
    // A code on the screen is not lost by a touch beside it.
    dismissable: !root.byPhone
    onDismissed: root.shown = false
    Component.onDestruction: {
        if (root.byPhone && root.shown)
            root.shell.phone.leave()
    }

    // In a column, because what is hidden takes no place there.
    Column {
        width: root.contentWidth

        PhonePane {
            id: pane

            width: parent.width
            visible: root.byPhone
            phone: root.shell.phone
            onAgain: root.phoneWanted()
        }

        Column {
            width: parent.width
            visible: !root.byPhone
            spacing: Theme.module

            CameraFeed {
                id: camera

                width: parent.width
                height: active && live ? Math.min(width * 0.6, Theme.mm(140)) : 0
                visible: height > 0
                active: root.shown && !root.byPhone
                onGrabbed: image => {
                    root.shown = false
                    root.frameTaken(image)
                }
            }

            Label {
                width: parent.width
                visible: !camera.live
                text: camera.fault.length > 0 ? camera.fault : qsTr("No camera here. Choose a photo from the drop folder.")
                wrapMode: Text.WordWrap
                muted: true
            }

            Label {
                width: parent.width
                visible: root.shell.dropped.fault.length > 0
                text: root.shell.dropped.fault
                wrapMode: Text.WordWrap
            }

            GridView {
                id: files

                readonly property int across: Math.max(1, Math.floor(width / Theme.mm(64)))

                width: parent.width
                height: count > 0 ? Math.min(Math.ceil(count / across) * cellHeight, Theme.mm(camera.live ? 60 : 130)) : 0
                cellWidth: width / across
                cellHeight: Theme.mm(58)
                clip: true
                model: root.shell.dropped
                delegate: Item {
                    id: cell

                    required property string path
                    required property string name
                    required property string url
                    required property string whenWords

                    width: files.cellWidth
                    height: files.cellHeight

                    PhotoTile {
                        anchors { fill: parent; margins: Theme.half }
                        source: cell.url
                        caption: cell.whenWords
                        onTapped: {
                            root.shown = false
                            root.fileChosen(cell.path)
                        }
                    }
                }
            }

            EmptyState {
                anchors.horizontalCenter: parent.horizontalCenter
                visible: files.count === 0 && !camera.live && !root.shell.dropped.busy
                paper: true
                title: qsTr("No photos wait in the drop folder")
                hint: qsTr("Put JPEG or PNG files there, from a phone or a stick.")
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            visible: !root.byPhone
            text: qsTr("Look again")
            onTapped: root.shell.dropped.refresh()
        },
        ActionButton {
            paper: true
            visible: !root.byPhone
            text: qsTr("Close")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            visible: !root.byPhone && root.phoneOffered
            text: qsTr("Use a phone")
            onTapped: {
                root.byPhone = true
                root.phoneWanted()
            }
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            symbol: Icon.Camera
            visible: camera.live && !root.byPhone
            text: qsTr("Take the photo")
            onTapped: camera.grab()
        },
        ActionButton {
            paper: true
            visible: root.byPhone
            kind: ActionButton.Accent
            text: qsTr("Done")
            onTapped: root.leavePhone()
        }
    ]
}
