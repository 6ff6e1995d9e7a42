// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What an operation asks for besides its readings: the cautions to read and the photos.
//   shell, view, photoNote (what is to be said about the last photo)
//   wanted: the height that shows all of it;  firstMissing(): a photo that is not there yet, or null
//   signals photoTapped(PhotoNeed need), morePhotosWanted(), compareWanted()
Sheet {
    id: root

    required property Shell shell
    required property OperationView view
    property string photoNote: ""
    readonly property real wanted: care.height + 2 * padding

    signal photoTapped(PhotoNeed need)
    signal compareWanted
    signal morePhotosWanted

    function firstMissing(): PhotoNeed {
        for (let at = 0; at < needs.count; ++at) {
            const need = needs.itemAt(at) as PhotoNeed
            if (need !== null && !need.present)
                return need
        }
        return null
    }

    Flickable {
        id: scroll

        anchors.fill: parent
        contentHeight: care.height
        clip: true
        boundsBehavior: Flickable.DragOverBounds

        Column {
            id: care

            readonly property real tileWidth: Math.min((width - Theme.gap) / 2, Theme.mm(64))

            width: scroll.width
            spacing: Theme.module

            Label {
                width: parent.width
                visible: cautions.count > 0
                text: root.view.cautionsRead ? root.view.cautionsReadWords : qsTr("Read before work")
                muted: true
                wrapMode: Text.WordWrap
            }

            Repeater {
                id: cautions

                model: root.view.cautions

                delegate: CautionLine {
                    required property string words

                    width: care.width
                    text: words
                }
            }

            Label {
                width: parent.width
                visible: refer.count > 0
                text: qsTr("When to refer it")
                muted: true
            }

            Repeater {
                id: refer

                model: root.view.referWords

                delegate: Label {
                    required property string modelData

                    width: care.width
                    text: modelData
                    wrapMode: Text.WordWrap
                }
            }

            Label {
                width: parent.width
                text: root.shell.standingLine
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }

            Label {
                text: qsTr("Photos")
                muted: true
            }

            Flow {
                width: parent.width
                spacing: Theme.gap

                Repeater {
                    id: needs

                    model: root.view.photoNeeds

                    delegate: PhotoNeed {
                        id: need

                        width: care.tileWidth
                        onTapped: root.photoTapped(need)
                    }
                }

                Repeater {
                    model: root.view.morePhotos

                    delegate: PhotoTile {
                        required property string url
                        required property string momentWords
                        required property string byWords

                        width: care.tileWidth
                        height: width * 0.8
                        available: false
                        source: url
                        caption: qsTr("%1 %2").arg(momentWords).arg(byWords)
                    }
                }

                PhotoTile {
                    width: care.tileWidth
                    height: width * 0.8
                    prompt: qsTr("Another photo")
                    onTapped: root.morePhotosWanted()
                }
            }

            ActionButton {
                visible: root.shell.beforeAfter.operations.length > 0 && root.shell.beforeAfter.comparesWork(root.view.operationId)
                paper: true
                text: qsTr("Before and after")
                onTapped: root.compareWanted()
            }

            Label {
                width: parent.width
                visible: text.length > 0
                text: root.photoNote
                wrapMode: Text.WordWrap
                role: Label.Detail
            }
        }
    }

    MoreBelow {
        list: scroll
    }
}
