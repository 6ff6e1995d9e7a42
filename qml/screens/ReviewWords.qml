// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What was said, with what was understood marked in it; the chosen draft's words are the darkest.
// A touch on a row chooses the draft in it, the next one with the next touch.
//   review
Rectangle {
    id: root

    required property SpeechReview review
    // Places, defects and work in bold; drafts that are to be decided tinted. No lines under or
    // through words: with a line height they are left standing where a row was before.
    readonly property string looks: "<style>a{color:" + Theme.ink + ";text-decoration:none}"
        + ".k{font-weight:bold}"
        + "a.o{background-color:" + Theme.rule + "}"
        + "a.x{color:" + Theme.inkMuted + "}"
        + "a.c{background-color:" + Theme.ink + ";color:" + Theme.paper + "}</style>"

    radius: Theme.radius
    color: Theme.paper

    function showChosen(): void {
        if (root.review.wordsRow >= 0)
            list.positionViewAtIndex(root.review.wordsRow, ListView.Center)
    }

    Connections {
        target: root.review

        function onChanged(): void {
            if (list.shownRow !== root.review.wordsRow) {
                list.shownRow = root.review.wordsRow
                root.showChosen()
            }
        }

        function onWordsRead(): void {
            list.forceLayout()
            root.showChosen()
        }
    }

    ListView {
        id: list

        property int shownRow: -1

        anchors { fill: parent; margins: Theme.module }
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        cacheBuffer: Math.max(0, height)
        model: root.review.words

        delegate: Item {
            id: row

            required property int index
            required property string momentWords
            required property string markup

            width: list.width
            height: said.height + Theme.half

            Label {
                id: moment

                y: said.y + said.baselineOffset - baselineOffset
                width: Theme.mm(17)
                text: row.momentWords
                role: Label.Detail
                muted: true
            }

            Label {
                id: said

                x: row.momentWords.length > 0 ? moment.width : 0
                width: parent.width - x - Theme.half
                textFormat: Text.RichText
                text: root.looks + row.markup
                wrapMode: Text.WordWrap
                lineHeight: 1.15
            }

            MouseArea {
                anchors.fill: parent
                onClicked: mouse => root.review.chooseInWords(row.index, said.linkAt(mouse.x - said.x, mouse.y - said.y))
            }
        }

        Rectangle {
            parent: root
            anchors { right: parent.right; rightMargin: Theme.line * 2 }
            visible: list.contentHeight > list.height
            y: list.y + list.visibleArea.yPosition * list.height
            width: Theme.mm(1)
            height: Math.max(Theme.mm(8), list.visibleArea.heightRatio * list.height)
            radius: width / 2
            color: Theme.paperLine
        }
    }

    EmptyState {
        anchors.centerIn: parent
        width: parent.width - 2 * Theme.margin
        visible: root.review.wordsFault.length > 0
        paper: true
        title: qsTr("The words cannot be shown")
        hint: qsTr("%1 The findings are all here and can be decided about.").arg(root.review.wordsFault)
    }
}
