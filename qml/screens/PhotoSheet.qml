// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Photos for a purpose: from the camera when there is one, out of the drop folder, off a stick, or
// from a phone.
//   shell, prompt (what it is to show), whereWords (of which place and car), phoneOffered
//   several: more than one file may be picked;  operationId: dates of files are told beside it
//   guide: address of the picture that it is taken over, or empty
//   momentAsked, moment: whether it is of before, during or after is chosen here
//   signals frameTaken(var image), filesChosen(var paths), phoneWanted() (open a code for it),
//   phoneDone(int came) (they are where they belong)
//   open() shows it
DialogSheet {
    id: root

    enum Way {
        Camera,
        Files,
        Phone
    }

    required property Shell shell
    property string prompt: ""
    property string whereWords: ""
    property string guide: ""
    property string moment: ""
    property bool momentAsked: false
    property bool phoneOffered: true
    property bool several: true
    property int operationId: 0
    property int way: PhotoSheet.Camera
    readonly property bool byCamera: way === PhotoSheet.Camera
    readonly property bool byFiles: way === PhotoSheet.Files
    readonly property bool byPhone: way === PhotoSheet.Phone
    // What is left of the screen's height between heading and actions.
    readonly property real room: height - 4 * Theme.margin - Theme.touch - Theme.mm(6) - head.height - Theme.mm(30)

    signal frameTaken(var image)
    signal filesChosen(var paths)
    signal phoneWanted
    signal phoneDone(int came)

    function open(): void {
        root.way = camera.look() ? PhotoSheet.Camera : PhotoSheet.Files
        root.shell.dropped.open(root.operationId)
        root.shown = true
    }

    // What was taken stays to be kept, whatever became of the camera.
    function leaveDeadCamera(): void {
        if (root.byCamera && camera.fault.length > 0 && !camera.held)
            root.way = PhotoSheet.Files
    }

    function momentWords(moment: string): string {
        return moment === "before" ? qsTr("before the work") : moment === "during" ? qsTr("during it") : qsTr("after it")
    }

    function leavePhone(): void {
        const came = phone.count
        root.shown = false
        root.shell.phone.end()
        root.phoneDone(came)
    }

    function usePhone(): void {
        root.way = PhotoSheet.Phone
        root.phoneWanted()
    }

    title: root.prompt
    sheetWidth: Math.min(Theme.mm(430), width - 2 * Theme.margin)
    // A code on the screen is not lost by a touch beside it.
    dismissable: !root.byPhone
    onDismissed: root.shown = false
    Component.onDestruction: {
        if (root.byPhone && root.shown)
            root.shell.phone.leave()
    }

    // Not at once: a camera may say it while it is being started.
    Timer {
        id: leaving

        interval: 0
        onTriggered: root.leaveDeadCamera()
    }

    // In a column, because what is hidden takes no place there.
    Column {
        width: root.contentWidth
        spacing: Theme.module

        Column {
            id: head

            width: parent.width
            spacing: Theme.half

            Label {
                width: parent.width
                visible: text.length > 0
                text: root.whereWords
                muted: true
                wrapMode: Text.WordWrap
            }

            Row {
                visible: root.momentAsked && !root.byPhone
                spacing: Theme.gap

                Repeater {
                    model: ["before", "during", "after"]

                    delegate: ChoiceChip {
                        required property string modelData

                        text: root.momentWords(modelData)
                        selected: root.moment === modelData
                        onTapped: root.moment = modelData
                    }
                }
            }

            Label {
                width: parent.width
                visible: root.byFiles && camera.fault.length > 0
                text: root.phoneOffered ? qsTr("%1 Choose a photo here, or use a phone.").arg(camera.fault)
                    : qsTr("%1 Choose a photo here.").arg(camera.fault)
                strong: camera.there
                wrapMode: Text.WordWrap
            }
        }

        CameraPane {
            id: camera

            width: parent.width
            visible: root.byCamera
            camera: root.shell.camera
            active: root.shown && root.byCamera
            guide: root.guide
            room: root.room
            onFaultChanged: leaving.restart()
            onHeldChanged: leaving.restart()
            onTaken: image => {
                root.shown = false
                root.frameTaken(image)
            }
        }

        PhotoPicker {
            id: picker

            width: parent.width
            visible: root.byFiles
            dropped: root.shell.dropped
            several: root.several
            room: root.room
        }

        PhonePane {
            id: phone

            width: parent.width
            visible: root.byPhone
            phone: root.shell.phone
            onAgain: root.phoneWanted()
        }
    }

    actions: [
        ActionButton {
            paper: true
            visible: !root.byPhone
            text: qsTr("Close")
            onTapped: root.shown = false
        },
        ActionButton {
            paper: true
            visible: root.byFiles && camera.there
            symbol: Icon.Camera
            text: qsTr("Camera")
            onTapped: root.way = PhotoSheet.Camera
        },
        ActionButton {
            paper: true
            visible: root.byCamera
            text: qsTr("Folder or stick")
            onTapped: root.way = PhotoSheet.Files
        },
        ActionButton {
            paper: true
            visible: !root.byPhone && root.phoneOffered
            text: qsTr("Use a phone")
            onTapped: root.usePhone()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            visible: root.byFiles && picker.count > 0
            available: root.shell.dropped.picked.length > 0
            text: root.shell.dropped.picked.length > 1 ? qsTr("Use %1 photos").arg(root.shell.dropped.picked.length) : qsTr("Use this photo")
            onTapped: {
                root.shown = false
                root.filesChosen(root.shell.dropped.picked)
            }
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
