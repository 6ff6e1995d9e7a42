// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// A moment of a walk-round's recording: seen and heard again; a video's picture can be taken as the
// photo "before".
//   recording (path; empty: there is none), mayTake (a picture would have a place to go), takeWords
//   play(what, quote, first, last): title, the words of the moment, its seconds in the recording
//   signal frameTaken(var image): for CarView.attachFrame or keepFrame; the sheet stays open
//   pictureKept(): say it once the picture is on the disk (CarView.photoKept)
//   signal dismissed(): closed; the file has been let go
//
//     HearItSheet {
//         id: hear
//         recording: review.recording
//         onFrameTaken: image => car.attachFrame(image, findingId)
//     }
//     Connections { target: car; function onPhotoKept() { hear.pictureKept() } }
//     ... onTapped: hear.play(finding.title, finding.quote, finding.firstSecond, finding.lastSecond)
DialogSheet {
    id: root

    property string recording: ""
    property bool mayTake: true
    property string takeWords: qsTr("Take as photo before")
    property string quote: ""

    readonly property bool faulty: player.state === MomentPlayer.Fault
    readonly property bool playing: player.state === MomentPlayer.Playing
    readonly property bool still: player.state === MomentPlayer.Resting
    property bool kept: false

    signal frameTaken(var image)

    function play(what: string, words: string, first: real, last: real): void {
        root.title = what
        root.quote = words
        root.kept = false
        root.shown = true
        player.playFrom(first, last)
    }

    function pictureKept(): void {
        root.kept = true
    }

    function close(): void {
        root.shown = false
        player.stop()
    }

    low: true
    sheetWidth: Math.min(Theme.mm(300), width - 2 * Theme.margin)
    onDismissed: root.close()

    actions: [
        ActionButton {
            paper: true
            text: qsTr("Close")
            onTapped: root.dismissed()
        },
        ActionButton {
            paper: true
            visible: root.playing || root.still
            text: root.playing ? qsTr("Hold still") : qsTr("Go on")
            onTapped: {
                if (root.playing)
                    player.pause()
                else
                    player.goOn()
            }
        },
        ActionButton {
            paper: true
            visible: player.state !== MomentPlayer.Opening && root.recording.length > 0
            text: qsTr("Play again")
            onTapped: player.again()
        },
        ActionButton {
            paper: true
            kind: ActionButton.Accent
            symbol: Icon.Camera
            visible: player.live && root.mayTake
            text: root.takeWords
            onTapped: {
                player.pause()
                player.grab()
            }
        }
    ]

    Column {
        width: root.contentWidth
        spacing: Theme.module

        // The room is kept while the next moment is opened, so that nothing jumps.
        Rectangle {
            width: parent.width
            height: player.hasPicture && !root.faulty ? Math.min(width / player.proportion, Theme.mm(150), root.height * 0.5) : 0
            visible: height > 0
            color: Theme.ground

            MomentPlayer {
                id: player

                anchors.fill: parent
                source: root.recording
                onGrabbed: image => root.frameTaken(image)
            }
        }

        Label {
            width: parent.width
            visible: root.quote.length > 0
            text: qsTr("“%1”").arg(root.quote)
            wrapMode: Text.WordWrap
            maximumLineCount: 6
            elide: Text.ElideRight
        }

        // Where in the moment; a touch goes there.
        Item {
            id: strip

            readonly property real share: player.end > player.begin ? (player.position - player.begin) / (player.end - player.begin) : 0

            width: parent.width
            height: Theme.touch
            visible: root.playing || root.still
            Accessible.role: Accessible.Slider
            Accessible.name: qsTr("Where in the moment")

            MouseArea {
                function go(x: real): void {
                    player.seek(player.begin + (player.end - player.begin) * Math.max(0, Math.min(1, x / width)))
                }

                anchors.fill: parent
                preventStealing: true
                onPressed: mouse => go(mouse.x)
                onPositionChanged: mouse => go(mouse.x)
            }

            Rectangle {
                anchors.verticalCenter: parent.verticalCenter
                width: parent.width
                height: Theme.band
                color: Theme.sunk
                border.width: Theme.line
                border.color: Theme.paperLine

                Rectangle {
                    width: parent.width * Math.max(0, Math.min(1, strip.share))
                    height: parent.height
                    color: Theme.accent
                }
            }
        }

        Item {
            width: parent.width
            height: Math.max(says.height, times.height)

            Label {
                id: says

                width: parent.width - (times.visible ? times.width + Theme.module : 0)
                text: root.kept && root.still ? qsTr("Kept as photo before") : player.words
                strong: root.faulty
                muted: !root.faulty
                wrapMode: Text.WordWrap
            }

            Label {
                id: times

                anchors.right: parent.right
                visible: strip.visible
                text: qsTr("%1 of %2").arg(player.positionWords).arg(player.endWords)
                muted: true
            }
        }
    }
}
