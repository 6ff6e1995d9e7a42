// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Which appraisal file is taken in: those in the drop folder and on sticks, the newest first. What is
// wrong with one is listed on the screen below.
//   view;  open() shows it
DialogSheet {
    id: root

    required property ArrivalView view

    function open(): void {
        root.view.listFiles()
        root.shown = true
    }

    title: qsTr("An appraisal file")
    sheetWidth: Math.min(Theme.mm(260), width - 2 * Theme.margin)
    onDismissed: root.shown = false

    Column {
        width: parent.width
        spacing: Theme.module

        Label {
            width: parent.width
            text: list.count > 0 ? qsTr("All of it is taken in, or nothing. The same file changes nothing the second time.") : root.view.filesWords
            wrapMode: Text.WordWrap
        }

        ListView {
            id: list

            width: parent.width
            height: Math.min(contentHeight, Theme.mm(120))
            clip: true
            boundsBehavior: Flickable.DragOverBounds
            model: root.view.files

            // Its words take it in as its button does.
            delegate: Touchable {
                id: line

                required property string path
                required property string name
                required property string whenWords

                width: list.width
                implicitHeight: Math.max(take.height, words.height) + Theme.module
                spoken: line.name
                onTapped: line.takeIn()

                function takeIn(): void {
                    root.shown = false
                    root.view.importFile(line.path)
                }

                Rectangle {
                    width: parent.width
                    height: Theme.line
                    color: Theme.rule
                }

                Column {
                    id: words

                    anchors { left: parent.left; right: take.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

                    Label {
                        width: parent.width
                        text: line.name
                        wrapMode: Text.Wrap
                    }

                    Label {
                        width: parent.width
                        text: line.whenWords
                        role: Label.Detail
                        muted: true
                        wrapMode: Text.WordWrap
                    }
                }

                ActionButton {
                    id: take

                    anchors { right: parent.right; verticalCenter: parent.verticalCenter }
                    paper: true
                    kind: ActionButton.Accent
                    text: qsTr("Take in")
                    onTapped: line.takeIn()
                }
            }
        }
    }

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Look again")
            onTapped: root.view.listFiles()
        },
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.shown = false
        }
    ]
}
