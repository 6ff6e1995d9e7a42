// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// The wall's own keyboard. One of it lies at the lower edge of the window, above all else; it comes
// up while a Field or NoteField has focus and types into that.
//   page: the item that holds the screens; bind its y to -shift and the field stays in sight
//   shown, shift (read only)
// The keys are made when they are first wanted: the wall is there sooner without them.
Item {
    id: root

    property Item page: null
    readonly property FieldInput line: root.Window.activeFocusItem as FieldInput
    readonly property NoteInput note: root.Window.activeFocusItem as NoteInput
    readonly property bool shown: (line !== null && line.touchKeyboard && !line.readOnly)
        || (note !== null && note.touchKeyboard && !note.readOnly)
    property real shift: 0
    readonly property TouchKeys keys: loader.item as TouchKeys

    readonly property real unit: Math.min(Theme.mm(26), (width - 2 * Theme.margin - 9 * Theme.gap) / 10)

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
    }

    function erase(): void {
        if (root.line !== null && root.line.cursorPosition > 0) {
            root.line.remove(root.line.cursorPosition - 1, root.line.cursorPosition)
            root.line.textEdited()
        } else if (root.note !== null && root.note.cursorPosition > 0) {
            root.note.remove(root.note.cursorPosition - 1, root.note.cursorPosition)
        }
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
    implicitHeight: loader.implicitHeight + 2 * Theme.module
    y: parent ? parent.height - (shown ? height : 0) : 0
    visible: parent && root.keys !== null ? y < parent.height : false
    onShownChanged: {
        if (root.shown && root.keys === null)
            loader.setSource("TouchKeys.qml", { unit: root.unit })
        root.place()
    }
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

    Loader {
        id: loader

        anchors.centerIn: parent
    }

    Binding {
        target: root.keys
        property: "unit"
        value: root.unit
    }

    Binding {
        target: root.keys
        property: "newLine"
        value: root.note !== null
    }

    Connections {
        target: root.keys

        function onTyped(text: string): void {
            root.put(text)
        }

        function onErased(): void {
            root.erase()
        }

        function onEntered(): void {
            if (root.line !== null)
                root.line.accepted()
        }

        function onPutAway(): void {
            root.hide()
        }
    }
}
