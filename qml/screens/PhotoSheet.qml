// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A photo for a purpose: from the camera when there is one, or out of the drop folder.
//   shell, prompt (what it is to show);  signals frameTaken(var image), fileChosen(string path)
//   open() shows it
DialogSheet {
    id: root

    required property Shell shell
    property string prompt: ""

    signal frameTaken(var image)
    signal fileChosen(string path)

    function open(): void {
        root.shell.dropped.refresh()
        root.shown = true
    }

    title: root.prompt
    sheetWidth: Math.min(Theme.mm(300), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        CameraFeed {
            id: camera

            width: parent.width
            height: active && live ? Math.min(width * 0.6, Theme.mm(140)) : 0
            visible: height > 0
            active: root.shown
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
            title: qsTr("No photos wait in the drop folder")
            hint: qsTr("Put JPEG or PNG files there, from a phone or a stick.")
        }

        Row {
            anchors.right: parent.right
            spacing: Theme.gap

            ActionButton {
                paper: true
                text: qsTr("Look again")
                onTapped: root.shell.dropped.refresh()
            }

            ActionButton {
                paper: true
                text: qsTr("Close")
                onTapped: root.shown = false
            }

            ActionButton {
                paper: true
                kind: ActionButton.Accent
                symbol: Icon.Camera
                visible: camera.live
                text: qsTr("Take the photo")
                onTapped: camera.grab()
            }
        }
    }
}
