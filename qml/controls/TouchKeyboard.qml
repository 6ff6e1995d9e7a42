// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// The wall's own keyboard. One of it lies at the lower edge of the window, above all else; it comes
// up while a Field or NoteField has focus and types into that.
//   page: the item that holds the screens; bind its y to -shift and the field stays in sight
//   shown, shift (read only)
// Keys: letters, digits, the usual marks, capitals for one letter or (two taps) until told otherwise.
Item {
    id: root

    property Item page: null
    readonly property FieldInput line: root.Window.activeFocusItem as FieldInput
    readonly property NoteInput note: root.Window.activeFocusItem as NoteInput
    readonly property bool shown: (line !== null && line.touchKeyboard && !line.readOnly)
        || (note !== null && note.touchKeyboard && !note.readOnly)
    property bool capital: false
    property bool capitalStays: false
    property bool marks: false
    property real shift: 0

    readonly property real unit: Math.min(Theme.mm(26), (width - 2 * Theme.margin - 9 * Theme.gap) / 10)
    readonly property list<string> letterRows: ["qwertyuiop", "asdfghjkl", "zxcvbnm"]
    readonly property list<string> markRows: ["@#&%+=()/\\", "\u00b0\u20ac\u00a3*\"!?;:", "\u00df\u00e4\u00f6\u00fc\u00e9\u00e8\u00e7"]

    function put(text: string): void {
        if (root.line !== null) {
            if (root.line.selectedText.length > 0)
                root.line.remove(root.line.selectionStart, root.line.selectionEnd)
            root.line.insert(root.line.cursorPosition, text)
            root.line.textEdited()
        } else if (root.note !== null) {
            if (root.note.selectedText.length > 0)
                root.note.remove(root.note.selectionStart, root.note.selectionEnd)
            root.note.insert(root.note.cursorPosition, text)
        }
        if (!root.capitalStays)
            root.capital = false
    }

    function erase(): void {
        if (root.line !== null && root.line.cursorPosition > 0) {
            root.line.remove(root.line.cursorPosition - 1, root.line.cursorPosition)
            root.line.textEdited()
        } else if (root.note !== null && root.note.cursorPosition > 0) {
            root.note.remove(root.note.cursorPosition - 1, root.note.cursorPosition)
        }
    }

    function enter(): void {
        if (root.note !== null)
            root.put("\n")
        else if (root.line !== null)
            root.line.accepted()
    }

    function hide(): void {
        if (root.line !== null)
            root.line.focus = false
        else if (root.note !== null)
            root.note.focus = false
    }

    // How far the page has to move up so that what is typed stays in sight.
    function place(): void {
        const field = root.line !== null ? root.line as Item : root.note as Item
        if (!root.shown || field === null || root.page === null) {
            root.shift = 0
            return
        }
        const foot = field.mapToItem(root.page, 0, field.height).y + Theme.module
        root.shift = Math.max(0, foot - (root.page.height - root.height))
    }

    anchors { left: parent ? parent.left : undefined; right: parent ? parent.right : undefined }
    implicitHeight: keys.implicitHeight + 2 * Theme.module
    y: parent ? parent.height - (shown ? height : 0) : 0
    visible: parent ? y < parent.height : false
    onShownChanged: root.place()
    onLineChanged: root.place()
    onNoteChanged: root.place()

    Behavior on y {
        NumberAnimation { duration: Theme.moveTime; easing.type: Easing.OutCubic }
    }

    Rectangle {
        anchors.fill: parent
        color: Theme.ground

        Rectangle {
            width: parent.width
            height: Theme.line
            color: Theme.groundLine
        }

        // Touches between the keys go nowhere.
        MouseArea {
            anchors.fill: parent
        }
    }

    component Letters: Row {
        id: letters

        property string signs: ""

        spacing: Theme.gap

        Repeater {
            model: letters.signs.length

            delegate: KeyCap {
                required property int index

                readonly property string sign: letters.signs.charAt(index)

                width: root.unit
                paper: false
                textSize: Theme.readingSize * 1.2
                text: root.capital ? sign.toUpperCase() : sign
                onStruck: root.put(text)
            }
        }
    }

    Column {
        id: keys

        anchors.centerIn: parent
        spacing: Theme.gap

        Letters {
            anchors.horizontalCenter: parent.horizontalCenter
            signs: "1234567890"
        }

        Letters {
            anchors.horizontalCenter: parent.horizontalCenter
            signs: root.marks ? root.markRows[0] : root.letterRows[0]
        }

        Letters {
            anchors.horizontalCenter: parent.horizontalCenter
            signs: root.marks ? root.markRows[1] : root.letterRows[1]
        }

        Row {
            anchors.horizontalCenter: parent.horizontalCenter
            spacing: Theme.gap

            KeyCap {
                width: root.unit * 1.5 + Theme.gap / 2
                paper: false
                symbol: Icon.Shift
                strong: root.capital
                Accessible.name: qsTr("Capitals")
                onStruck: {
                    if (root.capital && !root.capitalStays) {
                        root.capitalStays = true
                    } else {
                        root.capital = !root.capital
                        root.capitalStays = false
                    }
                }

                Rectangle {
                    visible: root.capitalStays
                    anchors { horizontalCenter: parent.horizontalCenter; bottom: parent.bottom; bottomMargin: Theme.half }
                    width: Theme.mm(8)
                    height: Theme.thickLine
                    color: Theme.accentInk
                }
            }

            Letters {
                signs: root.marks ? root.markRows[2] : root.letterRows[2]
            }

            KeyCap {
                width: root.unit * 1.5 + Theme.gap / 2
                paper: false
                symbol: Icon.Erase
                Accessible.name: qsTr("Erase")
                onStruck: root.erase()
            }
        }

        Row {
            anchors.horizontalCenter: parent.horizontalCenter
            spacing: Theme.gap

            KeyCap {
                width: root.unit * 1.5 + Theme.gap / 2
                paper: false
                textSize: Theme.readingSize
                text: root.marks ? qsTr("abc") : qsTr("marks")
                onStruck: root.marks = !root.marks
            }

            Letters {
                signs: "-'"
            }

            KeyCap {
                width: root.unit * 2 + Theme.gap
                paper: false
                textSize: Theme.readingSize
                text: qsTr("space")
                onStruck: root.put(" ")
            }

            Letters {
                signs: ",."
            }

            KeyCap {
                width: root.unit * 1.5 + Theme.gap / 2
                paper: false
                textSize: Theme.readingSize
                text: root.note !== null ? qsTr("new line") : qsTr("enter")
                onStruck: root.enter()
            }

            KeyCap {
                width: root.unit
                paper: false
                symbol: Icon.HideKeys
                Accessible.name: qsTr("Put the keyboard away")
                onStruck: root.hide()
            }
        }
    }
}
