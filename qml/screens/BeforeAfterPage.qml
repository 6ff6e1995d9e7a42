// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A piece of work before and after, over all of the screen: side by side, or on top of each other
// with a line to move. Of several photos, or several pieces of work, one is chosen.
//   pair;  openWork(), openPhoto(), open() (the first work) show it;  signal dismissed()
FocusScope {
    id: root

    required property BeforeAfter pair
    property bool shown: false
    // What was chosen holds for the next photos, too, as soon as they fit.
    property bool wipe: false
    readonly property bool wiping: wipe && pair.fit === BeforeAfter.Close
    readonly property string beforeText: qsTr("before · %1").arg(pair.beforeWords)
    readonly property string afterText: qsTr("after · %1").arg(pair.afterWords)

    signal dismissed

    function openWork(operationId: int): void {
        root.pair.openWork(operationId)
        root.appear()
    }

    function openPhoto(photoKey: string): void {
        root.pair.openPhoto(photoKey)
        root.appear()
    }

    function open(): void {
        root.pair.open()
        root.appear()
    }

    function appear(): void {
        root.shown = true
        root.forceActiveFocus()
    }

    function leave(): void {
        root.shown = false
        root.pair.close()
        root.dismissed()
    }

    anchors.fill: parent
    visible: shown && pair.title.length > 0
    Keys.onEscapePressed: root.leave()

    Rectangle {
        anchors.fill: parent
        color: Theme.ground

        MouseArea {
            anchors.fill: parent
        }
    }

    Column {
        id: head

        anchors { left: parent.left; right: parent.right; top: parent.top; margins: Theme.margin; topMargin: Theme.module }
        spacing: Theme.half

        Label {
            width: parent.width
            text: root.pair.title
            role: Label.Title
            paper: false
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            text: root.pair.fitWords
            paper: false
            muted: true
            wrapMode: Text.WordWrap
        }
    }

    Item {
        id: stage

        anchors { left: parent.left; right: parent.right; top: head.bottom; bottom: foot.top; leftMargin: Theme.margin; rightMargin: Theme.margin; topMargin: Theme.module; bottomMargin: Theme.module }

        PhotoBeside {
            anchors.fill: parent
            visible: !root.wiping
            beforeUrl: root.shown ? root.pair.beforeUrl : ""
            afterUrl: root.shown ? root.pair.afterUrl : ""
            beforeText: root.beforeText
            afterText: root.afterText
        }

        PhotoWipe {
            anchors.fill: parent
            visible: root.wiping
            focus: root.wiping
            beforeUrl: visible ? root.pair.beforeLaidUrl : ""
            afterUrl: visible ? root.pair.afterLaidUrl : ""
            proportion: root.pair.proportion
            beforeText: root.beforeText
            afterText: root.afterText
        }
    }

    Column {
        id: foot

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.margin; rightMargin: Theme.margin; bottomMargin: Theme.module }
        spacing: Theme.module

        Row {
            id: strips

            readonly property real half: (width - Theme.module) / 2

            width: parent.width
            spacing: Theme.module
            visible: befores.count > 1 || afters.count > 1

            PhotoStrip {
                id: befores

                width: strips.half
                photos: root.pair.befores
                heading: qsTr("Before")
                chosen: root.pair.beforeKey
                onPhotoChosen: photoKey => root.pair.choose(photoKey)
            }

            PhotoStrip {
                id: afters

                width: strips.half
                photos: root.pair.afters
                heading: qsTr("After")
                chosen: root.pair.afterKey
                onPhotoChosen: photoKey => root.pair.choose(photoKey)
            }
        }

        ListView {
            id: works

            width: parent.width
            height: Theme.touch
            visible: count > 1
            orientation: ListView.Horizontal
            boundsBehavior: Flickable.DragOverBounds
            clip: true
            spacing: Theme.gap
            model: root.pair.works

            delegate: ChoiceChip {
                required property string choiceId
                required property string title
                required property bool chosen

                text: title
                selected: chosen
                paper: false
                onTapped: root.pair.openWork(Number(choiceId))
            }
        }

        Item {
            width: parent.width
            height: Theme.touch

            ActionButton {
                anchors.left: parent.left
                symbol: Icon.Back
                text: qsTr("Back")
                onTapped: root.leave()
            }

            Row {
                anchors.right: parent.right
                spacing: Theme.gap
                visible: root.pair.fit === BeforeAfter.Close

                FilterTab {
                    text: qsTr("Side by side")
                    selected: !root.wipe
                    onTapped: root.wipe = false
                }

                FilterTab {
                    text: qsTr("Wipe")
                    selected: root.wipe
                    onTapped: root.wipe = true
                }
            }
        }
    }
}
