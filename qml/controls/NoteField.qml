// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A labelled note of several lines. Touching it calls up the touch keyboard.
//   label, text, placeholder, lines (shown at once)
//   signal edited(string text);  edit() gives it the focus
FocusScope {
    id: root

    property string label: ""
    property string placeholder: ""
    property int lines: 3
    property alias text: sheet.text
    readonly property NoteInput input: sheet

    signal edited(string text)

    function edit(): void {
        sheet.forceActiveFocus()
    }

    implicitWidth: Theme.mm(100)
    implicitHeight: box.y + box.height

    Label {
        id: name

        width: parent.width
        visible: root.label.length > 0
        text: root.label
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }

    Rectangle {
        id: box

        y: name.visible ? name.height + Theme.line * 2 : 0
        width: parent.width
        height: Math.max(Theme.touch, root.lines * Theme.readingSize * 1.35 + 2 * Theme.mm(3))
        radius: Theme.radius
        color: Theme.paper
        border.width: sheet.activeFocus ? Theme.thickLine : Theme.line
        border.color: sheet.activeFocus ? Theme.accent : Theme.paperLine

        MouseArea {
            anchors.fill: parent
            onClicked: root.edit()
        }

        Flickable {
            id: view

            anchors { fill: parent; margins: Theme.mm(3) }
            contentWidth: width
            contentHeight: sheet.implicitHeight
            clip: true
            interactive: contentHeight > height

            NoteInput {
                id: sheet

                width: view.width
                height: Math.max(implicitHeight, view.height)
                focus: true
                onTextChanged: root.edited(text)
                onCursorRectangleChanged: {
                    const low = cursorRectangle.y + cursorRectangle.height - view.height
                    if (low > view.contentY)
                        view.contentY = low
                    else if (cursorRectangle.y < view.contentY)
                        view.contentY = cursorRectangle.y
                }
            }
        }

        Label {
            anchors { fill: parent; margins: Theme.mm(3) }
            visible: sheet.text.length === 0 && !sheet.activeFocus
            text: root.placeholder
            muted: true
            wrapMode: Text.WordWrap
        }
    }
}
